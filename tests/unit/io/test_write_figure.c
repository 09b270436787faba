/* test_write_figure.c - figures as PDF and PNG: whole files, looked at by what cairo reads back, dot by dot.
 */
#include <cairo.h>
#include <stdint.h>
#include <string.h>

#include "sillspan/libraries.h"
#include "sillspan/memory.h"
#include "sillspan/write.h"
#include "support/suite.h"

/* 254 dots an inch are 10 dots a mm. */
enum { DOTS = 254, DOTS_MM = 10 };

static const char hostile[] = ") Tj /JavaScript (a) <script> \\ \x1B[31m \xE2\x80\xAE \xC3\x28 \xC3\xA4";

static ss_figure page_of(double width, double height) {
    return (ss_figure){.key = "plan", .title = "Plan", .text = "", .width = width, .height = height};
}

static ss_text pdf_of(const ss_figure *figure) {
    ss_text out = {0};
    ss_error error = {0};
    CHECK_OK(ss_write_figure_pdf(figure, &out, &error), &error);
    return out;
}

static ss_text png_of(const ss_figure *figure, int dots) {
    ss_text out = {0};
    ss_error error = {0};
    CHECK_OK(ss_write_figure_png(figure, dots, &out, &error), &error);
    return out;
}

static int count_of(const ss_text *text, const char *word) {
    const size_t length = strlen(word);
    int count = 0;
    for (size_t i = 0; i + length <= text->length; i++) {
        count += memcmp(text->data + i, word, length) == 0;
    }
    return count;
}

/* What is read of a PNG. */
typedef struct reading {
    const ss_text *text;
    size_t at;
} reading;

static cairo_status_t give(void *closure, unsigned char *bytes, unsigned length) {
    reading *const r = closure;
    if (r->at + length > r->text->length) {
        return CAIRO_STATUS_READ_ERROR;
    }
    memcpy(bytes, r->text->data + r->at, length);
    r->at += length;
    return CAIRO_STATUS_SUCCESS;
}

/* A picture that was written and read back; dark dots are ink. */
typedef struct picture {
    cairo_surface_t *surface;
    int width, height;
} picture;

static picture read_back(const ss_figure *figure) {
    ss_text text = png_of(figure, DOTS);
    reading r = {.text = &text};
    picture p = {.surface = cairo_image_surface_create_from_png_stream(give, &r)};
    CU_ASSERT_EQUAL_FATAL(cairo_surface_status(p.surface), CAIRO_STATUS_SUCCESS);
    p.width = cairo_image_surface_get_width(p.surface);
    p.height = cairo_image_surface_get_height(p.surface);
    ss_text_destroy(&text);
    return p;
}

static uint32_t dot_at(const picture *p, int x, int y) {
    uint32_t dot = 0;
    memcpy(&dot,
           cairo_image_surface_get_data(p->surface) + y * cairo_image_surface_get_stride(p->surface) + 4 * x,
           sizeof dot);
    return dot & 0xffffffU;
}

/* The columns of the picture between which there is ink, in mm. */
static void inked(const picture *p, double *left, double *right) {
    *left = 1e9;
    *right = -1e9;
    for (int y = 0; y < p->height; y++) {
        for (int x = 0; x < p->width; x++) {
            if ((dot_at(p, x, y) & 0xffU) < 0x80U) {
                *left = fmin(*left, (double)x / DOTS_MM);
                *right = fmax(*right, (x + 1.0) / DOTS_MM);
            }
        }
    }
}

static void test_pdf(void) {
    ss_figure figure = page_of(127.0, 25.4);
    ss_figure_box(&figure, SS_FIGURE_SLAB, (ss_spot){1.0, 1.0}, (ss_spot){20.0, 20.0});
    ss_figure_text(&figure, (ss_lettering){SS_FIGURE_LABEL, 1, 3.0, true}, (ss_spot){5.0, 5.0}, hostile);
    ss_text pdf = pdf_of(&figure);
    CU_ASSERT_EQUAL(strncmp(pdf.data, "%PDF-1.", 7), 0);
    CU_ASSERT_STRING_EQUAL(pdf.data + pdf.length - 6, "%%EOF\n");
    CU_ASSERT_EQUAL(count_of(&pdf, "/Type /Page %"), 1);
    /* 5 in by 1 in. */
    CU_ASSERT_EQUAL(count_of(&pdf, "/MediaBox [ 0 0 360 72 ]"), 1);
    CU_ASSERT_EQUAL(count_of(&pdf, "Date"), 0);
    CU_ASSERT_EQUAL(count_of(&pdf, "JavaScript"), 0);
    /* Text is set in letters of a font, which the file brings along. */
    CU_ASSERT_TRUE(count_of(&pdf, "/FontDescriptor") > 0);
    ss_text again = pdf_of(&figure);
    CU_ASSERT_EQUAL_FATAL(again.length, pdf.length);
    CU_ASSERT_EQUAL(memcmp(again.data, pdf.data, pdf.length), 0);
    ss_text_destroy(&again);
    ss_text_destroy(&pdf);
    ss_figure_destroy(&figure);
}

/* A title cannot end the string that holds it. */
static void test_pdf_title(void) {
    ss_figure figure = page_of(100.0, 50.0);
    figure.title = hostile;
    ss_text pdf = pdf_of(&figure);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Title (\\)"), 0);
    CU_ASSERT_EQUAL(count_of(&pdf, "(a)"), 0);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Type /Catalog"), 1);
    ss_text_destroy(&pdf);
    ss_figure_destroy(&figure);
}

static uint32_t number_at(const ss_text *png, size_t at) {
    uint32_t number = 0;
    for (size_t i = 0; i < 4; i++) {
        number = (number << 8) | (unsigned char)png->data[at + i];
    }
    return number;
}

static void test_png_size(void) {
    static const unsigned char signature[8] = {0x89, 'P', 'N', 'G', 13, 10, 26, 10};
    ss_figure figure = page_of(127.0, 25.4);
    ss_text png = png_of(&figure, 200);
    CU_ASSERT_EQUAL(memcmp(png.data, signature, sizeof signature), 0);
    CU_ASSERT_EQUAL(number_at(&png, 16), 1000);
    CU_ASSERT_EQUAL(number_at(&png, 20), 200);
    /* Second chunk: 200 dots an inch are 7874 a metre. */
    CU_ASSERT_EQUAL(memcmp(png.data + 37, "pHYs", 4), 0);
    CU_ASSERT_EQUAL(number_at(&png, 41), 7874);
    CU_ASSERT_EQUAL(number_at(&png, 45), 7874);
    CU_ASSERT_EQUAL(png.data[49], 1);
    ss_text_destroy(&png);
    ss_figure_destroy(&figure);
}

/* Paper is white, steel black, a finding hatched in red; lines are as wide as their role says. */
static void test_png_dots(void) {
    ss_figure figure = page_of(40.0, 20.0);
    ss_figure_box(&figure, SS_FIGURE_STEEL, (ss_spot){5.0, 5.0}, (ss_spot){15.0, 15.0});
    ss_figure_line(&figure, SS_FIGURE_MAIN_GIRDER, (ss_spot){18.0, 10.0}, (ss_spot){22.0, 10.0});
    ss_figure_box(&figure, SS_FIGURE_FINDING, (ss_spot){25.0, 5.0}, (ss_spot){35.0, 15.0});
    picture p = read_back(&figure);
    CU_ASSERT_EQUAL(p.width, 400);
    CU_ASSERT_EQUAL(p.height, 200);
    CU_ASSERT_EQUAL(dot_at(&p, 20, 20), 0xffffff);
    CU_ASSERT_EQUAL(dot_at(&p, 100, 100), 0x1c1c1a);
    int wide = 0;
    int red = 0;
    int white = 0;
    for (int y = 80; y < 120; y++) {
        wide += dot_at(&p, 200, y) != 0xffffff;
    }
    CU_ASSERT_EQUAL(wide, 8);
    for (int x = 260; x < 340; x++) {
        red += dot_at(&p, x, 100) == 0x8f3f2c;
        white += dot_at(&p, x, 100) == 0xffffff;
    }
    /* Lines of 0.3 mm, 1 mm apart, crossed at 45 degrees: 0.42 of 1.41 mm. */
    CU_ASSERT_TRUE(red > 80 * 0.15 && red < 80 * 0.35);
    CU_ASSERT_TRUE(white > 80 * 0.5 && white < 80 * 0.8);
    cairo_surface_destroy(p.surface);
    ss_figure_destroy(&figure);
}

/* Texts end, are centred or begin where their anchor says, and never need more room than the figure made. */
static void test_anchors(void) {
    static const char *const words[] = {"mmm main girder 12.5 in", "WWWWWW@@@@%%%%MMMM", "lilililil"};
    for (int k = 0; k < 2 * ENTRIES(words); k++) {
        const char *const word = words[k / 2];
        const bool bold = k % 2 != 0;
        const double room = ss_figure_text_width(word, 3.0);
        for (int anchor = -1; anchor <= 1; anchor++) {
            double left = 0.0;
            double right = 0.0;
            ss_figure figure = page_of(200.0, 10.0);
            const ss_lettering how = {bold ? SS_FIGURE_CAPTION : SS_FIGURE_LABEL, anchor, 3.0, false};
            ss_figure_text(&figure, how, (ss_spot){100.0, 6.0}, word);
            picture p = read_back(&figure);
            inked(&p, &left, &right);
            CHECK_ROW(right - left <= room + 0.3 && right - left > 0.4 * room, word);
            const double at = anchor < 0 ? right : anchor > 0 ? left : 0.5 * (left + right);
            CHECK_ROW(fabs(at - 100.0) < 0.5, word);
            cairo_surface_destroy(p.surface);
            ss_figure_destroy(&figure);
        }
    }
}

static void test_thousands(void) {
    ss_figure figure = page_of(180.0, 180.0);
    for (int i = 0; i < 4000; i++) {
        const double x = 5.0 + (i % 80) * 2.0;
        const double y = 5.0 + (double)(i / 80) * 3.0;
        ss_figure_disc(&figure, (ss_figure_role)(i % SS_FIGURE_ROLES), (ss_spot){x, y}, 0.8);
        ss_figure_text(&figure, (ss_lettering){SS_FIGURE_LABEL, 0, 2.0, false}, (ss_spot){x, y}, "a");
    }
    ss_text pdf = pdf_of(&figure);
    ss_text png = png_of(&figure, 100);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Type /Page %"), 1);
    CU_ASSERT_TRUE(png.length > 10000);
    ss_text_destroy(&pdf);
    ss_text_destroy(&png);
    ss_figure_destroy(&figure);
}

static void test_too_large(void) {
    ss_text out = {0};
    ss_error error = {0};
    ss_figure figure = page_of(1e6, 10.0);
    CU_ASSERT_EQUAL(ss_write_figure_pdf(&figure, &out, &error), SS_ERROR_LIMIT);
    CU_ASSERT_EQUAL(ss_write_figure_png(&figure, 200, &out, &error), SS_ERROR_LIMIT);
    figure.width = 180.0;
    CU_ASSERT_EQUAL(ss_write_figure_png(&figure, 1000000, &out, &error), SS_ERROR_LIMIT);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "1000000 dots"));
    figure.height = 0.0;
    CU_ASSERT_EQUAL(ss_write_figure_pdf(&figure, &out, &error), SS_ERROR_LIMIT);
    CU_ASSERT_EQUAL(ss_write_figure_png(&figure, 200, &out, &error), SS_ERROR_LIMIT);
    CU_ASSERT_EQUAL(out.length, 0);
}

static void test_memory(void) {
    ss_figure figure = page_of(60.0, 20.0);
    ss_figure_text(&figure, (ss_lettering){SS_FIGURE_LABEL, 0, 3.0, false}, (ss_spot){30.0, 6.0}, hostile);
    ss_figure_text(&figure, (ss_lettering){SS_FIGURE_CAPTION, 0, 3.0, false}, (ss_spot){30.0, 12.0}, "Plan");
    const long live = ss_memory_live();
    for (int kind = 0; kind < 2; kind++) {
        ss_status status = SS_ERROR_MEMORY;
        int n = 0;
        for (; status != SS_OK && n < 200; n++) {
            ss_text out = {0};
            ss_memory_fail_from(n);
            status = kind == 0 ? ss_write_figure_pdf(&figure, &out, NULL)
                               : ss_write_figure_png(&figure, 100, &out, NULL);
            ss_memory_fail_from(-1);
            CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
            ss_text_destroy(&out);
        }
        CU_ASSERT_EQUAL(status, SS_OK);
        CU_ASSERT_TRUE(n > 4);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    figure.failed = true;
    ss_text out = {0};
    CU_ASSERT_EQUAL(ss_write_figure_pdf(&figure, &out, NULL), SS_ERROR_MEMORY);
    CU_ASSERT_EQUAL(ss_write_figure_png(&figure, 100, &out, NULL), SS_ERROR_MEMORY);
    CU_ASSERT_PTR_NULL(out.data);
    ss_figure_destroy(&figure);
}

static void test_library(void) {
    char buffer[32];
    CU_ASSERT_PTR_NOT_NULL_FATAL(ss_libraries_drawing(buffer, sizeof buffer));
    CU_ASSERT_EQUAL(strncmp(buffer, "cairo 1.", 8), 0);
}

static const test_case cases[] = {
    {"a PDF of one page", test_pdf},
    {"a hostile title", test_pdf_title},
    {"the size of a PNG", test_png_size},
    {"dots of a PNG", test_png_dots},
    {"texts stand at their anchors", test_anchors},
    {"thousands of marks", test_thousands},
    {"too large", test_too_large},
    {"every allocation fails in turn", test_memory},
    {"the library's version", test_library},
};

int main(void) {
    return RUN_SUITE("write figure", cases);
}
