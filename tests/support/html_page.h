/* html_page.h - walks an HTML page tag by tag, apart from the program that wrote it: tags balance, ids are
 * unique, links and labels lead somewhere, tables have captions, nothing is fetched. */
#ifndef TEST_HTML_PAGE_H
#define TEST_HTML_PAGE_H

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { HTML_DEPTH = 64, HTML_NAMES = 512, HTML_NAME = 48 };

/** What a walk found. `fault` is empty when all is well. */
typedef struct html_page {
    char fault[200];
    char open[HTML_DEPTH][HTML_NAME]; /* elements that are open */
    int depth;
    char ids[HTML_NAMES][HTML_NAME], wanted[HTML_NAMES][HTML_NAME];
    int id_count, wanted_count;
    int sections, headings, tables, captions, rows, drawings, links, list_items, scripts;
    bool awaits_caption; /* a table has begun and its caption has not */
} html_page;

static inline bool html_is(const char *name, const char *const *list) {
    for (; *list != NULL; list++) {
        if (strcmp(name, *list) == 0) {
            return true;
        }
    }
    return false;
}

static inline void html_complain(html_page *page, const char *what, const char *word) {
    if (page->fault[0] == '\0') {
        char near[101] = "";
        const size_t length = strlen(word);
        memcpy(near, word, length < 100 ? length : 100);
        snprintf(page->fault, sizeof page->fault, "%s: %s", what, near);
    }
}

static inline void html_keep(char *to, const char *value) {
    const size_t length = strlen(value);
    memcpy(to, value, length < HTML_NAME ? length + 1 : HTML_NAME - 1);
}

/* An id that must be there. */
static inline void html_want(html_page *page, const char *id, size_t length) {
    if (page->wanted_count < HTML_NAMES) {
        char *const wanted = page->wanted[page->wanted_count++];
        memcpy(wanted, id, length < HTML_NAME ? length : HTML_NAME - 1);
    }
}

/* One attribute; its value is all between the quotes. */
static inline void html_attribute(html_page *page, const char *name, const char *value) {
    static const char *const known[] = {"id",
                                        "class",
                                        "lang",
                                        "charset",
                                        "name",
                                        "content",
                                        "http-equiv",
                                        "href",
                                        "scope",
                                        "tabindex",
                                        "role",
                                        "data-key",
                                        "data-pad",
                                        "aria-labelledby",
                                        "viewBox",
                                        "aria-hidden",
                                        "text-anchor",
                                        "d",
                                        "x",
                                        "y",
                                        "cx",
                                        "cy",
                                        "r",
                                        "points",
                                        "font-size",
                                        "transform",
                                        "style",
                                        "width",
                                        "height",
                                        "patternUnits",
                                        "patternTransform",
                                        "fill",
                                        "fill-opacity",
                                        "hidden",
                                        "type",
                                        NULL};
    if (!html_is(name, known)) {
        html_complain(page, "an attribute that the page has no use for", name);
    }
    if (strcmp(name, "id") == 0) {
        for (int i = 0; i < page->id_count; i++) {
            if (strcmp(page->ids[i], value) == 0) {
                html_complain(page, "an id twice", value);
            }
        }
        if (page->id_count < HTML_NAMES) {
            html_keep(page->ids[page->id_count++], value);
        }
    }
    const bool link = strcmp(name, "href") == 0;
    if (link && value[0] != '#') {
        html_complain(page, "a link that leaves the page", value);
    }
    if (strcmp(name, "style") == 0 && strncmp(value, "fill:url(#", 10) != 0) {
        html_complain(page, "a style that is no pattern of the page's own", value);
    }
    if (link) {
        html_want(page, value + 1, strlen(value + 1));
    }
    for (const char *word = strcmp(name, "aria-labelledby") == 0 ? value : ""; *word != '\0';
         word += strspn(word, " ")) { /* one id or several */
        html_want(page, word, strcspn(word, " "));
        word += strcspn(word, " ");
    }
    page->links += link;
}

static inline void html_count(html_page *page, const char *name) {
    page->sections += strcmp(name, "section") == 0;
    page->headings += strcmp(name, "h1") == 0 || strcmp(name, "h2") == 0;
    page->tables += strcmp(name, "table") == 0;
    page->captions += strcmp(name, "caption") == 0;
    page->rows += strcmp(name, "tr") == 0;
    page->drawings += strcmp(name, "figure") == 0;
    page->list_items += strcmp(name, "li") == 0;
    if (page->awaits_caption && strcmp(name, "caption") != 0) {
        html_complain(page, "a table that does not begin with its caption", name);
    }
    page->awaits_caption = strcmp(name, "table") == 0;
}

/* The attributes from `at` on; returns what follows the tag, and whether it ends itself. */
static inline const char *html_attributes(html_page *page, const char *at, bool *ends) {
    *ends = false;
    while (*at != '>' && *at != '\0' && page->fault[0] == '\0') {
        char name[HTML_NAME] = "";
        char value[65536] = "";
        at += strspn(at, " \n");
        if (*at == '/') {
            *ends = true;
            at++;
            continue;
        }
        const size_t length = strcspn(at, "=> \n/");
        if (length == 0 || length >= sizeof name || at[length] != '=' || at[length + 1] != '"') {
            html_complain(page, "an attribute without a quoted value", at);
            return at;
        }
        memcpy(name, at, length);
        at += length + 2;
        const size_t inside = strcspn(at, "\"<");
        if (at[inside] != '"') {
            html_complain(page, "a value that does not end", at);
            return at;
        }
        memcpy(value, at, inside < sizeof value ? inside : sizeof value - 1);
        html_attribute(page, name, value);
        at += inside + 1;
        at += strspn(at, " \n");
    }
    return *at == '>' ? at + 1 : at;
}

static inline const char *html_begin(html_page *page, const char *at) {
    static const char *const none[] = {"meta", "wbr", NULL};
    static const char *const known[] = {
        "html",    "head",    "meta",   "title",   "style",    "body",   "header", "main", "nav",
        "section", "h1",      "h2",     "p",       "ul",       "ol",     "li",     "dl",   "dt",
        "dd",      "div",     "a",      "table",   "thead",    "tbody",  "tr",     "th",   "td",
        "span",    "caption", "figure", "wbr",     "svg",      "path",   "circle", "text", "desc",
        "defs",    "pattern", "rect",   "polygon", "polyline", "script", NULL};
    char name[HTML_NAME] = "";
    bool ends = false;
    const size_t length = strspn(at, "abcdefghijklmnopqrstuvwxyz0123456789");
    memcpy(name, at, length < sizeof name ? length : sizeof name - 1);
    if (!html_is(name, known) && strcmp(name, "figcaption") != 0) {
        html_complain(page, "an element that the page has no use for", at);
        return at;
    }
    html_count(page, name);
    at = html_attributes(page, at + length, &ends);
    if (!ends && !html_is(name, none)) {
        if (page->depth == HTML_DEPTH) {
            html_complain(page, "too deep", name);
            return at;
        }
        memcpy(page->open[page->depth++], name, sizeof name);
    }
    /* What is in these is no text of the page; the first end that fits ends them, as in a browser. */
    if (strcmp(name, "style") == 0 || strcmp(name, "script") == 0) {
        const char *end = strstr(at, name[1] == 't' ? "</style>" : "</script>");
        page->scripts += name[1] != 't';
        return end == NULL ? at + strlen(at) : end;
    }
    return at;
}

static inline const char *html_end(html_page *page, const char *at) {
    char name[HTML_NAME] = "";
    const size_t length = strcspn(at, ">");
    memcpy(name, at, length < sizeof name ? length : sizeof name - 1);
    if (page->depth == 0 || strcmp(page->open[page->depth - 1], name) != 0) {
        html_complain(page, "an end that fits no beginning", name);
    } else {
        page->depth--;
    }
    return at[length] == '>' ? at + length + 1 : at + length;
}

/** Walks the whole page. */
static inline void html_walk(html_page *page, const char *text) {
    static const char doctype[] = "<!DOCTYPE html>";
    *page = (html_page){.fault = ""};
    if (strncmp(text, doctype, sizeof doctype - 1) != 0) {
        html_complain(page, "no page", text);
        return;
    }
    const char *at = text + sizeof doctype - 1;
    while (*at != '\0' && page->fault[0] == '\0') {
        const size_t length = strcspn(at, "<>\"'");
        at += length;
        if (*at == '<') {
            at = at[1] == '/' ? html_end(page, at + 2) : html_begin(page, at + 1);
        } else if (*at != '\0') {
            html_complain(page, "a sign in the text that should be written otherwise", at);
        }
    }
    if (page->depth > 0) {
        html_complain(page, "an element that does not end", page->open[page->depth - 1]);
    }
    for (int i = 0; i < page->wanted_count; i++) {
        bool there = false;
        for (int k = 0; k < page->id_count; k++) {
            there = there || strcmp(page->wanted[i], page->ids[k]) == 0;
        }
        if (!there) {
            html_complain(page, "nothing has the id", page->wanted[i]);
        }
    }
}

#endif
