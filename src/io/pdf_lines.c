/* pdf_lines.c - paragraphs of a report's PDF: lines as long as their letters let them be. */
#include "io/pdf_parts.h"

#include <string.h>

static double width_of(const ss_pdf *pdf, ss_pen pen, char *plain, size_t length) {
    const char kept = plain[length];
    if (kept != '\0') {
        plain[length] = '\0';
    }
    const double width = ss_pdf_width(pdf, pen, plain);
    if (kept != '\0') {
        plain[length] = kept;
    }
    return width;
}

/* Bytes up to the end of the character that begins at `at`. */
static size_t character(const char *plain, size_t at) {
    size_t end = at + 1;
    while (((unsigned char)plain[end] & 0xC0U) == 0x80U) {
        end++;
    }
    return end;
}

/* Where a word that is longer than its line is broken: after the last dot or the like that has room, else
 * after the last letter that has, and at least after the first. */
static size_t break_word(const ss_pdf *pdf, ss_pen pen, char *plain, size_t length, double width) {
    size_t letters = character(plain, 0);
    size_t joint = 0;
    for (size_t end = letters; end <= length && width_of(pdf, pen, plain, end) <= width;
         end = character(plain, end)) {
        letters = end;
        joint = strchr("._/-", plain[end - 1]) != NULL ? end : joint;
        if (end == length) {
            break;
        }
    }
    return 3 * joint > letters ? joint : letters;
}

size_t ss_pdf_break(const ss_pdf *pdf, ss_pen pen, char *plain, double width, char **next) {
    size_t taken = 0;
    size_t end = 0;
    while (plain[end] != '\0') {
        const size_t blanks = strspn(plain + end, " ");
        const size_t word = strcspn(plain + end + blanks, " ");
        /* A hair's width of patience: sums of widths differ by rounding. */
        if (taken > 0 && (word == 0 || width_of(pdf, pen, plain, end + blanks + word) > width + 0.01)) {
            break;
        }
        end += blanks + word;
        taken = word > 0 ? end : taken;
        if (taken == 0) {
            break; /* blanks alone */
        }
    }
    if (taken > 0 && width_of(pdf, pen, plain, taken) > width + 0.01) {
        taken = break_word(pdf, pen, plain, taken, width);
    }
    *next = plain + taken;
    *next += strspn(*next, " ");
    return taken;
}

const char *ss_pdf_cut(ss_pdf *pdf, ss_pen pen, const char *plain, double width) {
    if (ss_pdf_width(pdf, pen, plain) <= width) {
        return plain;
    }
    char *const copy = ss_pdf_part(pdf, plain, strlen(plain));
    size_t kept = 0;
    const double room = width - ss_pdf_width(pdf, pen, "\u2026");
    while (copy[kept] != '\0' && width_of(pdf, pen, copy, character(copy, kept)) <= room) {
        kept = character(copy, kept);
    }
    const char *const cut = pdf->failed ? NULL : ss_arena_printf(&pdf->arena, "%.*s\u2026", (int)kept, copy);
    pdf->failed = cut == NULL;
    return cut == NULL ? "" : cut;
}

static void add_line(ss_pdf *pdf, const ss_setting *s, const char *line, bool first) {
    const double base = 0.5 * (s->leading - s->pen.size) + 0.82 * s->pen.size;
    ss_box *const box = ss_pdf_box(pdf, first ? s->above : 0.0, s->leading);
    box->keep = false;
    if (first && s->before != NULL) {
        ss_pdf_text(pdf, s->pen, (ss_spot){s->indent - s->pen.size, base}, s->before);
    }
    if (s->bar) {
        ss_pdf_rule(pdf, SS_PDF_RED, 1.6, (ss_spot){0.8, 0.0}, (ss_spot){0.8, s->leading});
    }
    ss_pdf_text(pdf, s->pen, (ss_spot){s->indent, base}, line);
}

void ss_pdf_paragraph(ss_pdf *pdf, const ss_setting *setting, const char *text) {
    char *at = ss_pdf_plain(pdf, text);
    at += strspn(at, " ");
    const int first = pdf->box_count;
    while (*at != '\0' && !pdf->failed) {
        char *next = at;
        const size_t length = ss_pdf_break(pdf, setting->pen, at, setting->width - setting->indent, &next);
        add_line(pdf, setting, ss_pdf_part(pdf, at, length), pdf->box_count == first);
        at = next;
    }
    const int count = pdf->box_count - first;
    for (int i = 0; i < count - 1; i++) {
        pdf->boxes[first + i].keep = i == 0 || i == count - 2;
    }
}
