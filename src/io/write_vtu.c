/* write_vtu.c - a grid as an unstructured grid of VTK XML: numbers as base64, so that no digit is lost. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "io/write_html.h"
#include "sillspan/write.h"

/* Types of cells by that format. */
enum { VTK_VERTEX = 1, VTK_LINE = 3, VTK_QUAD = 9 };

static int vtk_type(ss_grid_shape shape) {
    switch (shape) {
    case SS_GRID_POINT: return VTK_VERTEX;
    case SS_GRID_SEGMENT: return VTK_LINE;
    case SS_GRID_QUAD: return VTK_QUAD;
    }
    return VTK_VERTEX;
}

/* ---- base64 ------------------------------------------------------------------------------------- */

/* Bytes on their way into base64; three at a time become four letters. */
typedef struct packer {
    ss_text *out;
    unsigned char waiting[3];
    int count;
} packer;

static void put_letters(packer *p) {
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const unsigned bits =
        ((unsigned)p->waiting[0] << 16U) | ((unsigned)p->waiting[1] << 8U) | (unsigned)p->waiting[2];
    char four[4];
    for (int i = 0; i < 4; i++) {
        four[i] = i <= p->count ? letters[(bits >> (18U - 6U * (unsigned)i)) & 63U] : '=';
    }
    ss_text_add_bytes(p->out, four, sizeof four);
    memset(p->waiting, 0, sizeof p->waiting);
    p->count = 0;
}

/* The least byte first, whatever the machine does. */
static void pack(packer *p, uint64_t value, int bytes) {
    for (int i = 0; i < bytes; i++) {
        p->waiting[p->count++] = (unsigned char)(value >> (8U * (unsigned)i));
        if (p->count == 3) {
            put_letters(p);
        }
    }
}

static void pack_double(packer *p, double value) {
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    pack(p, bits, 8);
}

/* ---- elements ----------------------------------------------------------------------------------- */

static packer begin_array(ss_text *out, const char *type, const char *attributes, uint64_t bytes) {
    packer p = {.out = out};
    ss_text_printf(out, "<DataArray type=\"%s\" %s format=\"binary\">", type, attributes);
    pack(&p, bytes, 8);
    return p;
}

static void end_array(packer *p) {
    if (p->count > 0) {
        put_letters(p);
    }
    ss_text_add(p->out, "</DataArray>\n");
}

/* Texts by the codes of their bytes, a zero after each: what that format has for them. */
static void put_codes(ss_text *out, const char *text) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    for (size_t i = 0; i < plain.length; i++) {
        ss_text_printf(out, "%d ", (int)(unsigned char)plain.data[i]);
    }
    ss_text_add(out, "0 ");
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}

/* ---- arrays ------------------------------------------------------------------------------------- */

static double shown(const ss_grid_unit *unit, ss_unit_system units, double value) {
    value = ss_units_from_si(value, unit->dimension, units);
    value = unit->times == SS_DIM_NUMBER ? value : ss_units_from_si(value, unit->times, units);
    return unit->per == SS_DIM_NUMBER ? value : ss_units_to_si(value, unit->per, units);
}

/* ` Name="moment, dead load [kip-ft]"`, with the names of components. */
static void put_name(ss_text *out, const ss_grid_array *array, ss_unit_system units) {
    const char *const unit = ss_units_name(array->unit.dimension, units);
    ss_text_add(out, "Name=\"");
    ss_html_text(out, array->name);
    if (unit[0] != '\0') {
        ss_text_printf(out, " [%s", unit);
        if (array->unit.times != SS_DIM_NUMBER) {
            ss_text_printf(out, " x %s", ss_units_name(array->unit.times, units));
        }
        if (array->unit.per != SS_DIM_NUMBER) {
            ss_text_printf(out, " per %s", ss_units_name(array->unit.per, units));
        }
        ss_text_add(out, "]");
    }
    ss_text_add(out, "\"");
    if (array->components == 2) {
        ss_text_add(out,
                    " NumberOfComponents=\"2\" ComponentName0=\"first end\" ComponentName1=\"second end\"");
    } else if (array->components == 3) {
        ss_text_add(out, " NumberOfComponents=\"3\"");
    }
}

static void put_array(ss_text *out, const ss_grid_array *array, size_t count, ss_unit_system units) {
    ss_text name = {0};
    put_name(&name, array, units);
    const char *const attributes = name.failed ? "" : name.data;
    if (array->kind == SS_GRID_TEXTS) {
        ss_text_printf(out, "<DataArray type=\"String\" %s format=\"ascii\">", attributes);
        for (size_t i = 0; i < count; i++) {
            put_codes(out, array->texts[i]);
        }
        ss_text_add(out, "</DataArray>\n");
    } else if (array->kind == SS_GRID_WHOLE) {
        packer p = begin_array(out, "Int32", attributes, 4 * count);
        for (size_t i = 0; i < count; i++) {
            pack(&p, (uint64_t)(uint32_t)(int32_t)array->numbers[i], 4);
        }
        end_array(&p);
    } else {
        count *= (size_t)array->components;
        packer p = begin_array(out, "Float64", attributes, 8 * count);
        for (size_t i = 0; i < count; i++) {
            pack_double(&p, isnan(array->numbers[i]) ? (double)NAN
                                                     : shown(&array->unit, units, array->numbers[i]));
        }
        end_array(&p);
    }
    out->failed = out->failed || name.failed;
    ss_text_destroy(&name);
}

static void put_arrays(ss_text *out, const ss_grid *grid, bool of_cells, ss_unit_system units) {
    ss_text_add(out, of_cells ? "<CellData>\n" : "<PointData>\n");
    for (int i = 0; i < grid->array_count; i++) {
        if (grid->arrays[i].of_cells == of_cells) {
            put_array(out, &grid->arrays[i], (size_t)(of_cells ? grid->cell_count : grid->point_count),
                      units);
        }
    }
    ss_text_add(out, of_cells ? "</CellData>\n" : "</PointData>\n");
}

/* ---- the file ----------------------------------------------------------------------------------- */

static void put_notes(ss_text *out, const ss_grid *grid, ss_unit_system units) {
    ss_text_add(out, "<FieldData>\n");
    for (int i = 0; i <= grid->note_count; i++) {
        const bool unit = i == grid->note_count;
        ss_text_add(out, "<DataArray type=\"String\" Name=\"");
        ss_html_text(out, unit ? "unit of points" : grid->notes[i].name);
        ss_text_add(out, "\" NumberOfTuples=\"1\" format=\"ascii\">");
        put_codes(out, unit ? ss_units_name(SS_DIM_LENGTH, units) : grid->notes[i].text);
        ss_text_add(out, "</DataArray>\n");
    }
    ss_text_add(out, "</FieldData>\n");
}

static void put_points(ss_text *out, const ss_grid *grid, ss_unit_system units) {
    const size_t count = 3 * (size_t)grid->point_count;
    ss_text_add(out, "<Points>\n");
    packer p = begin_array(out, "Float64", "Name=\"Points\" NumberOfComponents=\"3\"", 8 * count);
    for (size_t i = 0; i < count; i++) {
        pack_double(&p, ss_units_from_si(grid->points[i], SS_DIM_LENGTH, units));
    }
    end_array(&p);
    ss_text_add(out, "</Points>\n");
}

static void put_cells(ss_text *out, const ss_grid *grid) {
    ss_text_add(out, "<Cells>\n");
    packer p = begin_array(out, "Int32", "Name=\"connectivity\"", 4 * (uint64_t)grid->corner_count);
    for (int i = 0; i < grid->corner_count; i++) {
        pack(&p, (uint64_t)grid->corners[i], 4);
    }
    end_array(&p);
    p = begin_array(out, "Int32", "Name=\"offsets\"", 4 * (uint64_t)grid->cell_count);
    for (int i = 0; i < grid->cell_count; i++) {
        const int end = grid->cells[i].first + (int)grid->cells[i].shape;
        pack(&p, (uint64_t)end, 4);
    }
    end_array(&p);
    p = begin_array(out, "UInt8", "Name=\"types\"", (uint64_t)grid->cell_count);
    for (int i = 0; i < grid->cell_count; i++) {
        pack(&p, (uint64_t)vtk_type(grid->cells[i].shape), 1);
    }
    end_array(&p);
    ss_text_add(out, "</Cells>\n");
}

ss_status ss_write_vtu(const ss_grid *grid, ss_unit_system units, ss_text *out, ss_error *error) {
    ss_text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                     "<VTKFile type=\"UnstructuredGrid\" version=\"1.0\" byte_order=\"LittleEndian\" "
                     "header_type=\"UInt64\">\n<UnstructuredGrid>\n");
    put_notes(out, grid, units);
    ss_text_printf(out, "<Piece NumberOfPoints=\"%d\" NumberOfCells=\"%d\">\n", grid->point_count,
                   grid->cell_count);
    put_arrays(out, grid, false, units);
    put_arrays(out, grid, true, units);
    put_points(out, grid, units);
    put_cells(out, grid);
    ss_text_add(out, "</Piece>\n</UnstructuredGrid>\n</VTKFile>\n");
    return out->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the export") : SS_OK;
}
