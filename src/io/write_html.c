/* write_html.c - a report as one HTML page that needs nothing else: no network, and a script for the part of
 * it that moves alone. */
#include "sillspan/write.h"

#include "io/write_html.h"
#include "io/write_html_moving.h"
#include "io/write_seen.h"
#include "sillspan/version.h"

/* With fewer sections a table of contents is no help. */
#define CONTENTS_FROM 3

static int count_sections(const ss_report *report) {
    const ss_block *const title = ss_report_title(report);
    int count = 0;
    for (int i = 0; i < report->count; i++) {
        const ss_block *block = &report->blocks[i];
        count += ss_block_seen(block) && block->kind == SS_BLOCK_HEADING && block != title;
    }
    return count;
}

static bool has_moving(const ss_report *report) {
    for (int i = 0; i < report->count; i++) {
        if (report->blocks[i].kind == SS_BLOCK_MOVING) {
            return true;
        }
    }
    return false;
}

static void put_head(ss_text *out, const char *title, bool moving) {
    ss_text_add(out,
                "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                /* Whatever a description holds, the page fetches nothing and runs its own script alone. */
                "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                "style-src 'unsafe-inline'");
    if (moving) {
        ss_html_moving_policy(out);
    }
    ss_text_add(out, "\">\n"
                     "<meta name=\"generator\" content=\"sillspan " SS_VERSION "\">\n<title>");
    ss_html_text(out, title);
    ss_text_add(out, "</title>\n<style>\n");
    ss_html_style(out);
    if (moving) {
        ss_html_moving_style(out);
    }
    ss_text_add(out, "@page { @top-left { content: \"");
    ss_html_style_text(out, title);
    ss_text_add(out, "\"; } }\n</style>\n</head>\n");
}

static void put_contents(const ss_html *page) {
    const ss_report *report = page->report;
    const ss_block *const title = ss_report_title(report);
    int number = 0;
    ss_text_add(page->out, "<nav aria-labelledby=\"contents\">\n<h2 id=\"contents\">Contents</h2>\n<ol>\n");
    for (int i = 0; i < report->count; i++) {
        const ss_block *block = &report->blocks[i];
        if (!ss_block_seen(block) || block->kind != SS_BLOCK_HEADING || block == title) {
            continue;
        }
        ss_text_printf(page->out, "<li%s><a href=\"#s%d\">", block->screen ? " class=\"screen\"" : "",
                       ++number);
        ss_html_text(page->out, block->text);
        ss_text_add(page->out, "</a></li>\n");
    }
    ss_text_add(page->out, "</ol>\n</nav>\n");
}

/* Sentences that follow each other make one paragraph. Returns the block after it. */
static int put_paragraph(ss_html *page, int first) {
    const ss_report *report = page->report;
    int i = first;
    ss_text_add(page->out, "<p>");
    for (; i < report->count && report->blocks[i].kind == SS_BLOCK_SENTENCE &&
           ss_block_seen(&report->blocks[i]);
         i++) {
        ss_text_add(page->out, i == first ? "" : " ");
        ss_html_text(page->out, report->blocks[i].text);
    }
    ss_text_add(page->out, "</p>\n");
    return i;
}

static void put_items(ss_text *out, const ss_block *block, const char *before, const char *after) {
    for (int i = 0; i < block->item_count; i++) {
        ss_text_add(out, before);
        ss_html_text(out, block->items[i]);
        ss_text_add(out, after);
    }
}

static void put_list(ss_text *out, const ss_block *block) {
    if (block->item_count > 0) {
        ss_text_add(out, "<ul>\n");
        put_items(out, block, "<li>", "</li>\n");
        ss_text_add(out, "</ul>\n");
    }
}

/* Places to be written on by hand, with room beside the words. */
static void put_blanks(ss_text *out, const ss_block *block) {
    ss_text_add(out, "<dl class=\"blanks whole\">\n");
    put_items(out, block, "<div><dt>", "</dt><dd></dd></div>\n");
    ss_text_add(out, "</dl>\n");
}

/* Begins the section of a heading; after the first one, which holds the answer, come the contents. */
static void put_heading(ss_html *page, const ss_block *block, bool contents) {
    ss_text *out = page->out;
    if (page->sections > 0) {
        ss_text_add(out, "</section>\n");
    }
    if (page->sections == 1 && contents) {
        put_contents(page);
    }
    page->sections++;
    page->section = block->text;
    ss_text_printf(out, "<section id=\"s%d\"%s aria-labelledby=\"h%d\">\n<h2 id=\"h%d\">", page->sections,
                   block->screen ? " class=\"screen\"" : "", page->sections, page->sections);
    ss_html_text(out, block->text);
    ss_text_add(out, "</h2>\n");
}

static int put_block(ss_html *page, int i, bool contents) {
    const ss_block *block = &page->report->blocks[i];
    switch (block->kind) {
    case SS_BLOCK_HEADING: put_heading(page, block, contents); break;
    case SS_BLOCK_SENTENCE: return put_paragraph(page, i);
    case SS_BLOCK_LIST: put_list(page->out, block); break;
    case SS_BLOCK_TABLE: ss_html_table(page, block->table); break;
    case SS_BLOCK_DRAWING: ss_html_drawing(page, block->drawing); break;
    case SS_BLOCK_FIGURE: ss_html_figure(page, block->figure); break;
    case SS_BLOCK_BLANKS: put_blanks(page->out, block); break;
    case SS_BLOCK_MOVING: ss_html_moving(page, block->moving); break;
    case SS_BLOCK_VALUE:
        ss_text_add(page->out, "<p class=\"said\">");
        ss_html_text(page->out, block->text);
        ss_text_add(page->out, "</p>\n");
        break;
    }
    return i + 1;
}

/* The title and what comes before the first section, in the page's head; the rest as sections. */
static void put_body(ss_html *page) {
    const ss_report *report = page->report;
    const ss_block *const title = ss_report_title(report);
    const bool contents = count_sections(report) >= CONTENTS_FROM;
    bool in_head = true;
    ss_text_add(page->out, "<header>\n");
    for (int i = 0; i < report->count;) {
        const ss_block *block = &report->blocks[i];
        if (!ss_block_seen(block)) {
            i++;
        } else if (block == title) {
            ss_text_add(page->out, "<h1>");
            ss_html_text(page->out, block->text);
            ss_text_add(page->out, "</h1>\n");
            i++;
        } else {
            if (in_head && block->kind == SS_BLOCK_HEADING) {
                ss_text_add(page->out, "</header>\n<main>\n");
                in_head = false;
            }
            i = put_block(page, i, contents);
        }
    }
    ss_text_add(page->out, in_head ? "</header>\n<main>\n" : "");
    ss_text_add(page->out, page->sections > 0 ? "</section>\n</main>\n" : "</main>\n");
}

ss_status ss_write_html(const ss_report *report, ss_text *out, ss_error *error) {
    const ss_block *const title = ss_report_title(report);
    ss_html page = {.report = report, .out = out, .section = title == NULL ? "Results" : title->text};
    put_head(out, page.section, has_moving(report));
    ss_text_add(out, "<body>\n");
    if (count_sections(report) > 0) {
        ss_text_add(out, "<a class=\"skip\" href=\"#s1\">To the answer</a>\n");
    }
    put_body(&page);
    ss_text_add(out, "</body>\n</html>\n");
    return out->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the page of the report") : SS_OK;
}
