/* write_text.c - a report as text for people. */
#include "sillspan/write.h"

#include "io/write_lines.h"

/* A heading, underlined; the report's first one is its title. */
static void put_heading(ss_text *out, const char *text, bool title, ss_text_style style) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    const char *shown = plain.data == NULL ? "" : plain.data;
    ss_text_add(out, style.bold ? "\033[1m" : "");
    ss_lines_wrap(out, shown, 0, 0, style.width);
    if (!title) {
        const int own = ss_text_width(shown);
        ss_text_repeat(out, "-", own < style.width ? own : style.width);
    } else {
        const int own = ss_text_width(shown);
        ss_text_repeat(out, "=", own < style.width ? own : style.width);
    }
    ss_text_add(out, style.bold ? "\033[0m\n" : "\n");
    ss_text_add(out, title ? "" : "\n");
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}

static void put_list(ss_text *out, const ss_block *block, int width) {
    for (int i = 0; i < block->item_count; i++) {
        ss_text item = {0};
        ss_text_printf(&item, "- %s", block->items[i]);
        ss_lines_wrap(out, item.data == NULL ? "" : item.data, 2, 4, width);
        out->failed = out->failed || item.failed;
        ss_text_destroy(&item);
    }
    if (block->item_count > 0) {
        ss_text_add(out, "\n");
    }
}

static void put_blanks(ss_text *out, const ss_block *block) {
    for (int i = 0; i < block->item_count; i++) {
        ss_text_add(out, "  ");
        ss_text_add_plain(out, block->items[i]);
        ss_text_add(out, ": ______________________________\n");
    }
    ss_text_add(out, "\n");
}

/* Sentences that follow each other make one paragraph. */
static int put_paragraph(ss_text *out, const ss_report *report, int first, int width) {
    ss_text paragraph = {0};
    int i = first;
    for (; i < report->count && report->blocks[i].kind == SS_BLOCK_SENTENCE &&
           report->blocks[i].audience != SS_FOR_PROGRAMS;
         i++) {
        ss_text_add(&paragraph, i == first ? "" : " ");
        ss_text_add(&paragraph, report->blocks[i].text);
    }
    ss_lines_wrap(out, paragraph.data == NULL ? "" : paragraph.data, 0, 0, width);
    ss_text_add(out, "\n");
    out->failed = out->failed || paragraph.failed;
    ss_text_destroy(&paragraph);
    return i;
}

ss_status ss_write_text(const ss_report *report, ss_text_style style, ss_text *out, ss_error *error) {
    style.width = style.width < 40 ? 40 : style.width;
    bool titled = false;
    for (int i = 0; i < report->count;) {
        const ss_block *block = &report->blocks[i];
        if (block->audience == SS_FOR_PROGRAMS) {
            i++;
            continue;
        }
        if (block->kind == SS_BLOCK_SENTENCE) {
            i = put_paragraph(out, report, i, style.width);
            continue;
        }
        switch (block->kind) {
        case SS_BLOCK_HEADING:
            put_heading(out, block->text, !titled, style);
            titled = true;
            break;
        case SS_BLOCK_VALUE:
            ss_lines_wrap(out, block->text, 0, 0, style.width);
            ss_text_add(out, "\n");
            break;
        case SS_BLOCK_LIST: put_list(out, block, style.width); break;
        case SS_BLOCK_TABLE: ss_lines_table(out, block->table, report->units, style.width); break;
        case SS_BLOCK_DRAWING: ss_lines_drawing(out, block->drawing, style.width); break;
        case SS_BLOCK_MOVING: break;
        case SS_BLOCK_BLANKS: put_blanks(out, block); break;
        case SS_BLOCK_FIGURE:
        case SS_BLOCK_SENTENCE: break;
        }
        i++;
    }
    /* The blank line after the last block is one too many. */
    if (!out->failed && out->length > 1 && out->data[out->length - 2] == '\n') {
        out->data[--out->length] = '\0';
    }
    return out->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the text of the report") : SS_OK;
}
