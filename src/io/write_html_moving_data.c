/* write_html_moving_data.c - the data of a truck that moves as JSON: numbers in base 64, texts escaped so
 * that nothing in them can end the element that they stand in. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "io/write_html_moving.h"
#include "sillspan/memory.h"

/* ---- texts and numbers --------------------------------------------------------------------------------- */

void ss_moving_base64(ss_text *out, const unsigned char *byte, size_t count) {
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    char line[4 * 256];
    size_t filled = 0;
    for (size_t i = 0; i < count; i += 3) {
        const size_t left = count - i < 3 ? count - i : 3;
        const unsigned bits = (unsigned)byte[i] << 16 | (left > 1 ? (unsigned)byte[i + 1] << 8 : 0U) |
                              (left > 2 ? (unsigned)byte[i + 2] : 0U);
        line[filled++] = digits[bits >> 18];
        line[filled++] = digits[bits >> 12 & 63U];
        line[filled++] = left > 1 ? digits[bits >> 6 & 63U] : '=';
        line[filled++] = left > 2 ? digits[bits & 63U] : '=';
        if (filled == sizeof line) {
            ss_text_add_bytes(out, line, filled);
            filled = 0;
        }
    }
    ss_text_add_bytes(out, line, filled);
}

/* Bytes of a character that a JSON text in a page cannot have as it is; 0: it can. */
static size_t escape_of(const char *at, char *out, size_t size) {
    static const char hex[] = "0123456789abcdef";
    unsigned code = (unsigned char)*at;
    size_t length = 1;
    if (strncmp(at, "\xE2\x80\xA8", 3) == 0 || strncmp(at, "\xE2\x80\xA9", 3) == 0) {
        code = 0x2000U | ((unsigned char)at[2] & 0x3FU);
        length = 3;
    } else if (code >= 32U && strchr("\"\\<>&", *at) == NULL) {
        return 0;
    }
    if (size >= 7) {
        const char text[7] = {
            '\\', 'u', hex[code >> 12 & 15U], hex[code >> 8 & 15U], hex[code >> 4 & 15U], hex[code & 15U],
            '\0'};
        memcpy(out, text, sizeof text);
    }
    return length;
}

static void add_text(ss_text *out, const char *text) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    ss_text_add(out, "\"");
    for (const char *at = plain.data == NULL ? "" : plain.data; *at != '\0';) {
        char escaped[8];
        const size_t length = escape_of(at, escaped, sizeof escaped);
        if (length > 0) {
            ss_text_add(out, escaped);
        } else {
            ss_text_add_bytes(out, at, 1);
        }
        at += length > 0 ? length : 1;
    }
    ss_text_add(out, "\"");
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}

static void add_key(ss_text *out, const char *key) {
    ss_text_printf(out, ",\n\"%s\":", key);
}

static void add_number(ss_text *out, double value) {
    char number[64];
    ss_text_add(out, ss_text_significant(number, sizeof number, value, 12));
}

/* A list of numbers. */
static void add_numbers(ss_text *out, const double *value, int count) {
    ss_text_add(out, "[");
    for (int i = 0; i < count; i++) {
        ss_text_add(out, i > 0 ? "," : "");
        add_number(out, value[i]);
    }
    ss_text_add(out, "]");
}

/* ---- arrays -------------------------------------------------------------------------------------------- */

enum number_size { HALF = 2, SINGLE = 4, DOUBLE = 8 };

/* `count` numbers, least byte first. */
static void add_array(ss_text *out, const double *value, size_t count, enum number_size size) {
    unsigned char *const byte = ss_alloc(count * (size_t)size + 1, 1);
    if (byte == NULL) {
        out->failed = true;
        return;
    }
    for (size_t i = 0; i < count; i++) {
        uint64_t bits = 0;
        if (size == DOUBLE) {
            memcpy(&bits, &value[i], sizeof bits);
        } else if (size == SINGLE) {
            const float single = (float)value[i];
            uint32_t half = 0;
            memcpy(&half, &single, sizeof half);
            bits = half;
        } else {
            bits = (uint16_t)(int16_t)value[i];
        }
        for (size_t k = 0; k < (size_t)size; k++) byte[i * (size_t)size + k] = (unsigned char)(bits >> 8 * k);
    }
    ss_text_add(out, "\"");
    ss_moving_base64(out, byte, count * (size_t)size);
    ss_text_add(out, "\"");
    ss_free(byte);
}

/* Rows of a matrix of readings beyond the supports in 16 bits, column by column in units that each kind of
 * reading has of its own. */
static void add_scaled(ss_text *out, const ss_moving *m, const double *matrix, int columns) {
    const size_t width = (size_t)columns;
    const size_t first = (size_t)m->support_count * width, count = (size_t)m->reading_count * width - first;
    double *const unit = ss_alloc(SS_MOVING_KINDS * width + 1, sizeof *unit);
    double *const number = ss_alloc(count + 1, sizeof *number);
    if (unit == NULL || number == NULL) {
        out->failed = true;
        ss_free(unit);
        ss_free(number);
        return;
    }
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < count; i++) {
            const double value = matrix[first + i];
            double *const u = &unit[(size_t)m->reading[(first + i) / width].kind * width + i % width];
            if (pass == 0) {
                *u = fmax(*u, fabs(value) / 32767.0);
            } else {
                number[i] = *u > 0.0 ? round(value / *u) : 0.0;
            }
        }
    }
    ss_text_add(out, "{\"unit\":");
    add_array(out, unit, SS_MOVING_KINDS * width, DOUBLE);
    ss_text_add(out, ",\"number\":");
    add_array(out, number, count, HALF);
    ss_text_add(out, "}");
    ss_free(unit);
    ss_free(number);
}

/* ---- the bridge ---------------------------------------------------------------------------------------- */

static void add_unit(ss_text *out, ss_dimension dimension, ss_unit_system units) {
    ss_text_add(out, "{\"name\":");
    add_text(out, ss_units_name(dimension, units));
    ss_text_add(out, ",\"si\":");
    add_number(out, ss_units_to_si(1.0, dimension, units));
    ss_text_add(out, dimension != SS_DIM_LENGTH ? "}"
                     : units == SS_UNITS_US     ? ",\"decimals\":1}"
                                                : ",\"decimals\":2}");
}

static void add_units(ss_text *out, ss_unit_system units) {
    static const struct {
        const char *key;
        ss_dimension dimension;
    } of[] = {{"length", SS_DIM_LENGTH},
              {"small", SS_DIM_SMALL_LENGTH},
              {"force", SS_DIM_FORCE},
              {"moment", SS_DIM_MOMENT}};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        ss_text_printf(out, "%s\"%s\":", i > 0 ? "," : "{", of[i].key);
        add_unit(out, of[i].dimension, units);
    }
    ss_text_add(out, "}");
}

/* A number after a key within an object. */
static void put(ss_text *out, const char *key, double value) {
    ss_text_printf(out, ",\"%s\":", key);
    add_number(out, value);
}

static void add_members(ss_text *out, const ss_bridge *b) {
    add_key(out, "cars");
    for (int i = 0; i < b->car_count; i++) {
        const ss_car *const car = &b->cars[i];
        ss_text_add(out, i > 0 ? ",{\"name\":" : "[{\"name\":");
        add_text(out, car->name);
        put(out, "x0", car->x0);
        put(out, "x1", car->x1);
        put(out, "left", car->y_left);
        put(out, "right", car->y_right);
        ss_text_add(out, "}");
    }
    ss_text_add(out, "]");
    add_key(out, "lines");
    for (int i = 0; i < b->line_count; i++) {
        static const char *const roles[] = {"main", "exterior", "stringer"};
        const ss_line *const line = &b->lines[i];
        ss_text_add(out, i > 0 ? ",{\"name\":" : "[{\"name\":");
        add_text(out, line->name);
        ss_text_printf(out, ",\"car\":%d,\"role\":\"%s\"", line->car, roles[line->role]);
        put(out, "y", line->y);
        put(out, "x0", line->x0);
        put(out, "x1", line->x1);
        ss_text_add(out, "}");
    }
    ss_text_add(out, "]");
    add_key(out, "beams");
    ss_text_add(out, "[");
    bool any = false;
    for (int i = 0; i < b->floor_beam_count; i++) {
        const ss_floor_beam *const beam = &b->floor_beams[i];
        if (beam->strip == 0.0 && beam->part_count > 0) {
            const double at[3] = {beam->x, b->parts[beam->first_part].y0,
                                  b->parts[beam->first_part + beam->part_count - 1].y1};
            ss_text_add(out, any ? "," : "");
            add_numbers(out, at, 3);
            any = true;
        }
    }
    ss_text_add(out, "]");
}

static void add_ties(ss_text *out, const ss_moving_sheet *sheet) {
    const ss_bridge *const b = sheet->bridge;
    add_key(out, "joints");
    ss_text_add(out, "[");
    for (int i = 0; i < b->joint_count; i++) {
        const ss_joint *const joint = &b->joints[i];
        ss_text_add(out, i > 0 ? ",{\"at\":" : "{\"at\":");
        add_numbers(out, b->connectors + joint->first_connector, joint->connector_count);
        put(out, "y", joint->y);
        put(out, "x0", joint->x0);
        put(out, "x1", joint->x1);
        ss_text_add(out, "}");
    }
    ss_text_add(out, "]");
    add_key(out, "bearings");
    ss_text_add(out, "[");
    for (int i = 0; i < b->bearing_count; i++) {
        ss_text_add(out, i > 0 ? ",{\"name\":" : "{\"name\":");
        add_text(out, sheet->bearings[i]);
        put(out, "x", b->bearings[i].x);
        put(out, "y", b->lines[b->bearings[i].line].y);
        ss_text_add(out, "}");
    }
    ss_text_add(out, "]");
}

static void add_bridge(ss_text *out, const ss_moving_sheet *sheet) {
    const ss_bridge *const b = sheet->bridge;
    const double roadway[2] = {b->roadway_left, b->roadway_right};
    ss_text_add(out, "{\"roadway\":");
    add_numbers(out, roadway, 2);
    put(out, "x0", b->x0);
    put(out, "x1", b->x1);
    add_members(out, b);
    add_ties(out, sheet);
    ss_text_add(out, "}");
}

static void add_trucks(ss_text *out, const ss_moving_sheet *sheet) {
    for (int i = 0; i < sheet->truck_count; i++) {
        const ss_moving_truck *const truck = &sheet->trucks[i];
        const ss_vehicle *const v = truck->vehicle;
        double gauge[SS_AXLES_MAX];
        for (int a = 0; a < v->axle_count; a++) gauge[a] = ss_vehicle_gauge(v, a);
        ss_text_add(out, i > 0 ? ",\n{\"name\":" : "[{\"name\":");
        add_text(out, truck->name);
        ss_text_add(out, ",\"axles\":");
        add_numbers(out, v->axle_N, v->axle_count);
        ss_text_add(out, ",\"spacing\":");
        add_numbers(out, v->spacing_m, v->axle_count - 1);
        ss_text_add(out, ",\"gauge\":");
        add_numbers(out, gauge, v->axle_count);
        put(out, "low", truck->low);
        put(out, "high", truck->high);
        ss_text_add(out, "}");
    }
    ss_text_add(out, "]");
}

/* Stiffness of the joints that are moved, as described. */
static void add_joints(ss_text *out, const ss_bridge *b, ss_unit_system units) {
    bool any = false;
    ss_text_add(out, "[");
    for (int i = 0; i < b->joint_count; i++) {
        const ss_joint *const joint = &b->joints[i];
        const bool shear = isfinite(joint->shear) && joint->shear > 0.0;
        const double stiffness = shear ? joint->shear : joint->rotation;
        if (!(isfinite(stiffness) && stiffness > 0.0)) {
            continue;
        }
        const bool each = joint->connector_count > 0;
        const ss_dimension dimension =
            shear ? (each ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH)
                  : (each ? SS_DIM_ROTATION_SPRING : SS_DIM_ROTATION_SPRING_PER_LENGTH);
        ss_text_add(out, any ? ",{\"name\":" : "{\"name\":");
        add_text(out, joint->name);
        put(out, "stiffness", stiffness);
        ss_text_add(out, ",\"unit\":");
        add_unit(out, dimension, units);
        ss_text_add(out, "}");
        any = true;
    }
    ss_text_add(out, "]");
}

/* ---- the sums ------------------------------------------------------------------------------------------ */

static void add_lists(ss_text *out, const ss_moving *m) {
    add_key(out, "section");
    add_numbers(out, m->section, m->section_count);
    add_key(out, "support");
    ss_text_add(out, "[");
    for (int i = 0; i < m->support_count; i++) {
        const ss_moving_support *const s = &m->support[i];
        ss_text_printf(out, "%s{\"bearing\":%d,\"contact\":%s,\"slope\":%s,\"late\":%s", i > 0 ? "," : "",
                       s->bearing, s->contact ? "true" : "false", s->slope ? "true" : "false",
                       s->late ? "true" : "false");
        put(out, "seat", s->seat);
        ss_text_add(out, "}");
    }
    ss_text_add(out, "]");
    add_key(out, "reading");
    ss_text_add(out, "[");
    for (int i = 0; i < m->reading_count; i++) {
        const ss_moving_reading *const r = &m->reading[i];
        ss_text_printf(out, "%s[%d,%d,%d]", i > 0 ? "," : "", (int)r->kind, r->index, r->section);
    }
    ss_text_add(out, "]");
}

static void add_sums(ss_text *out, const ss_moving *m) {
    const size_t supports = (size_t)m->support_count, loads = (size_t)m->load_count,
                 modes = (size_t)m->mode_count;
    ss_text_printf(out, ",\n\"along\":%s,\"contact\":%d,\"modes\":%d", m->along ? "true" : "false",
                   m->contact_count, m->mode_count);
    put(out, "t1", m->t1);
    add_key(out, "rail");
    add_array(out, m->rail, (size_t)m->rail_count, DOUBLE);
    add_key(out, "place");
    add_array(out, m->place, (size_t)m->place_count, DOUBLE);
    add_key(out, "l");
    add_array(out, m->l, modes, DOUBLE);
    add_key(out, "support_value");
    add_array(out, m->value, supports * loads, SINGLE);
    add_key(out, "value");
    add_scaled(out, m, m->value, m->load_count);
    add_key(out, "support_a");
    add_array(out, m->a, supports * modes, SINGLE);
    add_key(out, "a");
    add_scaled(out, m, m->a, m->mode_count);
    add_key(out, "h");
    add_array(out, m->h, modes * loads, DOUBLE);
    add_key(out, "unit");
    add_array(out, m->unit, 2 * ((size_t)m->reading_count + modes), DOUBLE);
    add_key(out, "curves");
    ss_text_add(out, "\"");
    ss_moving_base64(out, m->byte, m->byte_count);
    ss_text_add(out, "\"");
}

void ss_moving_data(ss_text *out, const ss_moving_sheet *sheet, ss_unit_system units) {
    const ss_moving *const m = sheet->moving;
    ss_text_add(out, "{\"units\":");
    add_units(out, units);
    add_key(out, "bridge");
    add_bridge(out, sheet);
    add_key(out, "trucks");
    add_trucks(out, sheet);
    add_key(out, "joints");
    add_joints(out, sheet->bridge, units);
    add_key(out, "still");
    add_text(out, sheet->still == NULL ? "" : sheet->still);
    ss_text_printf(out, ",\"none\":%s,\"rigid\":%s", m->none ? "true" : "false", m->rigid ? "true" : "false");
    put(out, "least", m->least);
    put(out, "most", m->most);
    ss_text_add(out, ",\"step\":{\"along\":");
    add_number(out, units == SS_UNITS_US ? 0.3048 : 0.25);
    put(out, "across", units == SS_UNITS_US ? 0.0762 : 0.1);
    ss_text_add(out, "}");
    add_lists(out, m);
    add_sums(out, m);
    ss_text_add(out, "}\n");
}
