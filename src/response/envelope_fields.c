/* envelope_fields.c - effects in packs, and the influence fields of a tile of them. */
#include <string.h>

#include "mechanics/row.h"
#include "response/envelope_tile.h"
#include "response/state.h"

/* ---- packs -------------------------------------------------------------------------------------- */

static bool same_section(const ss_effect *a, const ss_effect *b) {
    return a->member == b->member && a->index == b->index && a->at == b->at && a->before == b->before;
}

/* Effects of a pack that is being gathered, and the first effect of each section. */
typedef struct gathered {
    int count, sections;
    int first[SS_PACK_SECTIONS];
    int index[SS_PACK_TILES * SS_TILE], section[SS_PACK_TILES * SS_TILE];
} gathered;

/* By kind, in the order of the list. Effects of one kind at sections beside each other govern at positions
 * beside each other. */
static void cut(const ss_effect *effects, const gathered *all, ss_effect_pack *pack) {
    for (int kind = 0; kind <= (int)SS_EFFECT_WEB_MINUS; kind++) {
        for (int i = 0; i < all->count; i++) {
            if ((int)effects[all->index[i]].kind != kind) {
                continue;
            }
            if (pack->tile_count == 0 || pack->tile[pack->tile_count - 1].count == SS_TILE) {
                pack->tile[pack->tile_count++].count = 0;
            }
            ss_effect_tile *const tile = &pack->tile[pack->tile_count - 1];
            tile->index[tile->count] = all->index[i];
            tile->section[tile->count++] = all->section[i];
        }
    }
}

/* Index of the section of an effect, which is added if it is new. */
static int section_of(const ss_effect *effects, gathered *all, int index) {
    for (int i = 0; i < all->sections; i++) {
        if (same_section(&effects[all->first[i]], &effects[index])) {
            return i;
        }
    }
    all->first[all->sections] = index;
    return all->sections++;
}

int ss_effect_packs_make(const ss_effect *effects, int count, ss_effect_pack *packs) {
    int made = 0;
    for (int springs = 0; springs < 2; springs++) {
        gathered all = {0};
        for (int i = 0; i < count;) {
            int end = i + 1;
            while (end < count && end - i < SS_TILE && same_section(&effects[end], &effects[i])) end++;
            if (ss_effect_of_spring(&effects[i]) == (springs == 1)) {
                if (all.sections == SS_PACK_SECTIONS || all.count + end - i > SS_PACK_TILES * SS_TILE) {
                    packs[made] = (ss_effect_pack){.springs = springs == 1};
                    cut(effects, &all, &packs[made++]);
                    all.count = all.sections = 0;
                }
                const int section = section_of(effects, &all, i);
                for (int k = i; k < end; k++) {
                    all.index[all.count] = k;
                    all.section[all.count++] = section;
                }
            }
            i = end;
        }
        if (all.count > 0) {
            packs[made] = (ss_effect_pack){.springs = springs == 1};
            cut(effects, &all, &packs[made++]);
        }
    }
    return made;
}

/* ---- fields ------------------------------------------------------------------------------------- */

static void solve_members(const ss_permanent *permanent, const ss_effect *effects, int count, double *z,
                          double *work) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    memset(z, 0, (size_t)mesh->order * SS_TILE * sizeof *z);
    for (int lane = 0; lane < count; lane++) {
        ss_row row;
        ss_mesh_effect_row(mesh, &effects[lane], &row);
        for (int i = 0; i < row.count; i++) z[(size_t)row.dof[i] * SS_TILE + (size_t)lane] += row.value[i];
    }
    ss_grillage_solve(permanent->grillage, NULL, z, work);
}

/* Spring effects: the field of a settlement of the spring is the influence field of its force (Betti). */
static void solve_springs(const ss_permanent *permanent, const ss_effect *effects, int count, double *z,
                          double *second_z, double *work) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    const size_t size = (size_t)mesh->order * SS_TILE;
    int first[SS_TILE], second[SS_TILE], lane_of[SS_TILE], seconds = 0;
    for (int lane = 0; lane < count; lane++) {
        first[lane] = effects[lane].spring;
        const int other = ss_effect_second_spring(mesh, &effects[lane]);
        if (other >= 0) {
            lane_of[seconds] = lane;
            second[seconds++] = other;
        }
    }
    memset(z, 0, size * sizeof *z);
    ss_grillage_settle(permanent->grillage, NULL, count, first, z, work);
    if (seconds > 0) {
        memset(second_z, 0, size * sizeof *second_z);
        ss_grillage_settle(permanent->grillage, NULL, seconds, second, second_z, work);
    }
    for (size_t dof = 0; dof < (size_t)mesh->order; dof++) {
        for (int i = 0; i < seconds; i++)
            z[dof * SS_TILE + (size_t)lane_of[i]] += second_z[dof * SS_TILE + (size_t)i];
    }
    for (int lane = 0; lane < count; lane++) {
        const double factor = ss_effect_spring_factor(mesh, &effects[lane]);
        for (size_t dof = 0; dof < (size_t)mesh->order; dof++) z[dof * SS_TILE + (size_t)lane] *= factor;
    }
}

void ss_envelope_fields(const ss_permanent *permanent, const ss_effect *effects, int count, double *z,
                        double *second, double *work) {
    if (ss_effect_of_spring(&effects[0])) {
        solve_springs(permanent, effects, count, z, second, work);
    } else {
        solve_members(permanent, effects, count, z, work);
    }
}
