/* test_write_vtu.c - grids as VTK XML: what is read back from base64 and codes is what was there. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/memory.h"
#include "sillspan/write.h"
#include "support/suite.h"

/* Two segments and a point over three points; a name that would break XML. */
static double points[9] = {0.0, 0.0, 0.0, 0.3048, 0.6096, 0.0, 3.048, -0.3048, 0.0};
static ss_grid_cell cells[3] = {{SS_GRID_SEGMENT, 0}, {SS_GRID_SEGMENT, 2}, {SS_GRID_POINT, 4}};
static int corners[5] = {0, 1, 1, 2, 2};
static double moments[6], deflections[3] = {0.0254, -0.0127, 0.0}, parts[3] = {2.0, 1.0, 70000.0};
static const char *names[3] = {"sill", "", "tr\xC3\xA4ger <&> \x1B[31m"};
static ss_grid_array arrays[4] = {
    {.name = "deflection, \"A\" & <B>", .components = 1, .unit = {.dimension = SS_DIM_SMALL_LENGTH}},
    {.name = "moment", .of_cells = true, .components = 2, .unit = {.dimension = SS_DIM_MOMENT}},
    {.name = "part", .kind = SS_GRID_WHOLE, .of_cells = true, .components = 1},
    {.name = "name", .kind = SS_GRID_TEXTS, .of_cells = true, .components = 1},
};
static ss_grid_note notes[1] = {{"bridge", "a \xE2\x82\xAC"}};

static ss_grid make(void) {
    for (int i = 0; i < 6; i++) {
        moments[i] = i == 4 ? (double)NAN : (1.5 + i) * KIP_FOOT;
    }
    arrays[0].numbers = deflections;
    arrays[1].numbers = moments;
    arrays[2].numbers = parts;
    arrays[3].texts = names;
    return (ss_grid){.points = points,
                     .point_count = 3,
                     .cells = cells,
                     .cell_count = 3,
                     .corners = corners,
                     .corner_count = 5,
                     .arrays = arrays,
                     .array_count = 4,
                     .notes = notes,
                     .note_count = 1};
}

static ss_text written(const ss_grid *grid, ss_unit_system units) {
    ss_text text = {0};
    ss_error error = {0};
    CHECK_OK(ss_write_vtu(grid, units, &text, &error), &error);
    return text;
}

/* ---- reading back ------------------------------------------------------------------------------- */

/* The content of the element that begins with `tag`, up to its end. */
static const char *content(const char *vtu, const char *tag, size_t *length) {
    const char *at = strstr(vtu, tag);
    if (at == NULL) {
        printf("\n  %s is not there", tag);
        CU_FAIL_FATAL("an array is missing");
        return NULL;
    }
    at = strchr(at, '>') + 1;
    *length = strcspn(at, "<");
    return at;
}

/* Bytes of a base64 array, after the 8 of its length, which must be right. */
static size_t decode(const char *vtu, const char *tag, unsigned char *out, size_t most) {
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    size_t length = 0;
    const char *const text = content(vtu, tag, &length);
    unsigned char bytes[1024];
    size_t count = 0;
    CU_ASSERT_EQUAL_FATAL(length % 4, 0);
    for (size_t i = 0; i < length; i += 4) {
        uint32_t bits = 0;
        int pads = 0;
        for (size_t k = 0; k < 4; k++) {
            const char *const found = text[i + k] == '=' ? NULL : strchr(letters, text[i + k]);
            pads += text[i + k] == '=';
            CU_ASSERT_TRUE(found != NULL || text[i + k] == '=');
            bits = (bits << 6U) | (found == NULL ? 0U : (uint32_t)(found - letters));
        }
        for (int k = 0; k < 3 - pads; k++) {
            bytes[count++] = (unsigned char)(bits >> (16U - 8U * (unsigned)k));
        }
    }
    uint64_t said = 0;
    for (size_t i = 0; i < 8; i++) {
        said |= (uint64_t)bytes[i] << (8U * i);
    }
    CU_ASSERT_EQUAL_FATAL(said, count - 8);
    CU_ASSERT_TRUE_FATAL(count - 8 <= most);
    memcpy(out, bytes + 8, count - 8);
    return count - 8;
}

static int doubles(const char *vtu, const char *tag, double *out, size_t most) {
    unsigned char bytes[512];
    const size_t count = decode(vtu, tag, bytes, sizeof bytes) / 8;
    CU_ASSERT_TRUE_FATAL(count <= most);
    for (size_t i = 0; i < count; i++) {
        uint64_t bits = 0;
        for (size_t k = 0; k < 8; k++) {
            bits |= (uint64_t)bytes[8 * i + k] << (8U * k);
        }
        memcpy(&out[i], &bits, sizeof bits);
    }
    return (int)count;
}

static int whole(const char *vtu, const char *tag, int32_t *out, size_t most) {
    unsigned char bytes[512];
    const size_t count = decode(vtu, tag, bytes, sizeof bytes) / 4;
    CU_ASSERT_TRUE_FATAL(count <= most);
    for (size_t i = 0; i < count; i++) {
        out[i] = (int32_t)((uint32_t)bytes[4 * i] | ((uint32_t)bytes[4 * i + 1] << 8U) |
                           ((uint32_t)bytes[4 * i + 2] << 16U) | ((uint32_t)bytes[4 * i + 3] << 24U));
    }
    return (int)count;
}

/* ---- tests -------------------------------------------------------------------------------------- */

static void test_values(void) {
    const ss_grid grid = make();
    ss_text vtu = written(&grid, SS_UNITS_US);
    double value[16];
    CU_ASSERT_EQUAL(doubles(vtu.data, "Name=\"Points\"", value, 16), 9);
    CHECK_CLOSE(value[3], 1.0, 1e-15);
    CHECK_CLOSE(value[4], 2.0, 1e-15);
    CHECK_CLOSE(value[7], -1.0, 1e-15);
    CU_ASSERT_EQUAL(doubles(vtu.data, "Name=\"moment [kip-ft]\"", value, 16), 6);
    for (int i = 0; i < 6; i++) {
        if (i == 4) {
            CU_ASSERT_TRUE(isnan(value[i]));
        } else {
            CHECK_CLOSE(value[i], 1.5 + i, 1e-14);
        }
    }
    ss_text_destroy(&vtu);
    vtu = written(&grid, SS_UNITS_SI);
    CU_ASSERT_EQUAL(doubles(vtu.data, "Name=\"moment [kN m]\"", value, 16), 6);
    CHECK_CLOSE(value[0], 1.5 * KIP_FOOT / 1000.0, 1e-14);
    CU_ASSERT_EQUAL(doubles(vtu.data, "[mm]\"", value, 16), 3);
    CHECK_CLOSE(value[1], -12.7, 1e-14);
    ss_text_destroy(&vtu);
}

/* Units of products: EI as a moment times a length, an influence per force. */
static void test_compound_units(void) {
    ss_grid grid = make();
    arrays[1].unit = (ss_grid_unit){SS_DIM_MOMENT, SS_DIM_NUMBER, SS_DIM_FORCE};
    ss_text vtu = written(&grid, SS_UNITS_US);
    double value[8];
    CU_ASSERT_EQUAL(doubles(vtu.data, "Name=\"moment [kip-ft per kip]\"", value, 8), 6);
    CHECK_CLOSE(value[0], 1.5 * KIP, 1e-14); /* kip ft of 1 N is 1.5; of a kip so many times more */
    ss_text_destroy(&vtu);
    arrays[1].unit = (ss_grid_unit){SS_DIM_MOMENT, SS_DIM_LENGTH, SS_DIM_NUMBER};
    vtu = written(&grid, SS_UNITS_US);
    CU_ASSERT_EQUAL(doubles(vtu.data, "Name=\"moment [kip-ft x ft]\"", value, 8), 6);
    CHECK_CLOSE(value[0], 1.5 / FOOT, 1e-14);
    ss_text_destroy(&vtu);
    arrays[1].unit = (ss_grid_unit){.dimension = SS_DIM_MOMENT};
}

static void test_cells(void) {
    const ss_grid grid = make();
    ss_text vtu = written(&grid, SS_UNITS_US);
    int32_t value[16];
    CU_ASSERT_PTR_NOT_NULL(strstr(vtu.data, "<Piece NumberOfPoints=\"3\" NumberOfCells=\"3\">"));
    CU_ASSERT_EQUAL(whole(vtu.data, "Name=\"connectivity\"", value, 16), 5);
    for (int i = 0; i < 5; i++) {
        CU_ASSERT_EQUAL(value[i], corners[i]);
    }
    CU_ASSERT_EQUAL(whole(vtu.data, "Name=\"offsets\"", value, 16), 3);
    CU_ASSERT_TRUE(value[0] == 2 && value[1] == 4 && value[2] == 5);
    unsigned char types[8];
    CU_ASSERT_EQUAL(decode(vtu.data, "Name=\"types\"", types, sizeof types), 3);
    CU_ASSERT_TRUE(types[0] == 3 && types[1] == 3 && types[2] == 1); /* VTK_LINE, VTK_LINE, VTK_VERTEX */
    CU_ASSERT_EQUAL(whole(vtu.data, "Name=\"part\"", value, 16), 3);
    CU_ASSERT_TRUE(value[0] == 2 && value[1] == 1 && value[2] == 70000);
    ss_text_destroy(&vtu);
}

/* Texts are bytes by their codes with a zero after each; what steers a terminal is gone. */
static void test_texts(void) {
    const ss_grid grid = make();
    ss_text vtu = written(&grid, SS_UNITS_US);
    size_t length = 0;
    const char *at = content(vtu.data, "type=\"String\" Name=\"name\"", &length);
    char read[80] = "";
    int count = 0;
    for (char *end = NULL; count < 79; at = end) {
        const long code = strtol(at, &end, 10);
        if (end == at) {
            break;
        }
        read[count++] = (char)code;
    }
    static const char expected[] = "sill\0\0tr\xC3\xA4ger <&> ?[31m";
    CU_ASSERT_EQUAL(count, (int)sizeof expected);
    CU_ASSERT_EQUAL(memcmp(read, expected, sizeof expected), 0);
    CU_ASSERT_PTR_NOT_NULL(strstr(vtu.data, "Name=\"bridge\" NumberOfTuples=\"1\" format=\"ascii\">97 32 226 "
                                            "130 172 0 </DataArray>"));
    CU_ASSERT_PTR_NOT_NULL(strstr(vtu.data,
                                  "Name=\"unit of points\" NumberOfTuples=\"1\" format=\"ascii\">102 "
                                  "116 0 </DataArray>"));
    ss_text_destroy(&vtu);
}

/* Tags close in their turn, and what a description says stays within its quotes. */
static void test_well_formed(void) {
    const ss_grid grid = make();
    ss_text vtu = written(&grid, SS_UNITS_US);
    const char *open[16];
    int depth = 0;
    int elements = 0;
    CU_ASSERT_PTR_NOT_NULL(strstr(vtu.data, "Name=\"deflection, &quot;A&quot; &amp; &lt;B&gt; [in]\""));
    for (const char *at = strstr(vtu.data, "<VTKFile"); at != NULL; at = strchr(at + 1, '<')) {
        const size_t length = strcspn(at + 1, " />");
        const char *const close = strchr(at, '>');
        CU_ASSERT_PTR_NOT_NULL_FATAL(close);
        if (at[1] == '/') {
            CU_ASSERT_TRUE_FATAL(depth > 0);
            depth--;
            CU_ASSERT_EQUAL(strncmp(open[depth], at + 2, strcspn(at + 2, ">")), 0);
            continue;
        }
        int quotes = 0;
        for (const char *c = at; c < close; c++) {
            quotes += *c == '"';
        }
        CU_ASSERT_EQUAL(quotes % 2, 0);
        CU_ASSERT_TRUE_FATAL(depth < 16 && length > 0);
        open[depth++] = at + 1;
        elements++;
    }
    CU_ASSERT_EQUAL(depth, 0);
    CU_ASSERT_EQUAL(elements, 18); /* 8 that hold others, 10 arrays */
    ss_text_destroy(&vtu);
}

static void test_memory(void) {
    const ss_grid grid = make();
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0; status == SS_ERROR_MEMORY && n < 300; n++) {
        ss_text text = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        status = ss_write_vtu(&grid, SS_UNITS_US, &text, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || strstr(error.message, "memory") != NULL);
        ss_text_destroy(&text);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT_EQUAL(ss_memory_live(), 0);
}

static const test_case cases[] = {
    {"numbers come back in units that names say", test_values},
    {"units of products", test_compound_units},
    {"cells and whole numbers", test_cells},
    {"texts by their codes", test_texts},
    {"well formed and escaped", test_well_formed},
    {"no memory", test_memory},
};

int main(void) {
    return RUN_SUITE("write_vtu", cases);
}
