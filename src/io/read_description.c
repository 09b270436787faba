/* read_description.c - descriptions from files: the text is scanned, libconfig parses it, and its tree
 * becomes ours. */
#include "sillspan/reader.h"

#include <libconfig.h>

#include "base/try.h"
#include "io/read_scan.h"
#include "io/read_source.h"
#include "model/description_path.h"

/* A fault of form that waits until the whole tree, and so its path, is known. */
typedef struct late_fault {
    const ss_node *node; /* or the parent, for a key that is left out */
    const ss_scan_value *value;
    const char *key; /* that is left out, or NULL */
} late_fault;

typedef struct conversion {
    const ss_source *source;
    const ss_scan *scan;
    ss_description *out;
    ss_diag_list *diags;
    int next; /* value of the scan that belongs to the next setting */
    late_fault *late;
    int late_count;
} conversion;

static bool agrees(int type, ss_node_kind kind) {
    switch (kind) {
    case SS_NODE_GROUP: return type == CONFIG_TYPE_GROUP;
    case SS_NODE_LIST: return type == CONFIG_TYPE_LIST;
    case SS_NODE_TEXT: return type == CONFIG_TYPE_STRING;
    case SS_NODE_INTEGER:
    case SS_NODE_REAL: return type == CONFIG_TYPE_INT;
    case SS_NODE_FLAG: return type == CONFIG_TYPE_BOOL;
    }
    return false;
}

static int count_values(const config_setting_t *setting) {
    int count = 1;
    if (!config_setting_is_aggregate(setting)) {
        return count;
    }
    const int length = config_setting_length(setting);
    for (int i = 0; i < length; i++) {
        count += count_values(config_setting_get_elem(setting, (unsigned)i));
    }
    return count;
}

static ss_status convert_children(conversion *c, const config_setting_t *from, ss_node *to);

static ss_status convert(conversion *c, const config_setting_t *from, ss_node *to) {
    if (c->next >= c->scan->count) {
        return SS_ERROR_INTERNAL;
    }
    const ss_scan_value *value = &c->scan->values[c->next];
    if (!agrees(config_setting_type(from), value->kind)) {
        return SS_ERROR_INTERNAL;
    }
    if ((value->wrong & SS_SCAN_REPEATED) != 0U) {
        const char *key = ss_arena_text(&c->out->arena, c->source->text.data + value->begin, value->length);
        if (key == NULL) {
            return SS_ERROR_MEMORY;
        }
        c->late[c->late_count++] = (late_fault){.node = to, .value = value, .key = key};
        c->next += count_values(from);
        return SS_OK;
    }
    c->next++;
    ss_node *node = ss_node_add(c->out, to, value->kind, config_setting_name(from),
                                ss_source_place(c->source, value->line));
    if (node == NULL) {
        return SS_ERROR_MEMORY;
    }
    if (value->wrong != 0U) {
        c->late[c->late_count++] = (late_fault){.node = node, .value = value};
    }
    switch (value->kind) {
    case SS_NODE_GROUP:
    case SS_NODE_LIST: return convert_children(c, from, node);
    case SS_NODE_TEXT: {
        const char *text = config_setting_get_string(from);
        if (text == NULL) {
            return SS_ERROR_INTERNAL;
        }
        if ((value->wrong & (SS_SCAN_UNQUOTED | SS_SCAN_UNREADABLE)) != 0U) {
            node->text = ss_arena_text(&c->out->arena, c->source->text.data + value->begin, value->length);
        } else {
            node->text = ss_arena_printf(&c->out->arena, "%s", text);
        }
        return node->text == NULL ? SS_ERROR_MEMORY : SS_OK;
    }
    case SS_NODE_INTEGER:
    case SS_NODE_REAL: node->number = value->number; break;
    case SS_NODE_FLAG: node->flag = config_setting_get_bool(from) != 0; break;
    }
    return SS_OK;
}

static ss_status convert_children(conversion *c, const config_setting_t *from, ss_node *to) {
    ss_status status = SS_OK;
    const int length = config_setting_length(from);
    for (int i = 0; i < length; i++) {
        SS_TRY(convert(c, config_setting_get_elem(from, (unsigned)i), to));
    }
done:
    return status;
}

static ss_status say_late(conversion *c) {
    ss_status status = SS_OK;
    ss_text path = {0};
    for (int i = 0; i < c->late_count; i++) {
        const late_fault *late = &c->late[i];
        ss_text_clear(&path);
        ss_node_key_path(late->node, late->key, &path);
        if (path.failed) {
            SS_TRY(SS_ERROR_MEMORY);
        }
        SS_TRY(ss_scan_complain(late->value, c->source, path.data == NULL ? "" : path.data, c->diags));
    }
done:
    ss_text_destroy(&path);
    return status;
}

static ss_status parse(conversion *c) {
    ss_status status = SS_OK;
    config_t config;
    config_init(&config);
    c->late = ss_alloc((size_t)c->scan->count, sizeof *c->late);
    if (c->late == NULL) {
        SS_TRY(SS_ERROR_MEMORY);
    }
    /* The scan lets nothing pass that libconfig could refuse: at a syntax error it would leak, and name the
     * wrong line. */
    if (config_read_string(&config, c->scan->plain.data) != CONFIG_TRUE) {
        SS_TRY(SS_ERROR_INTERNAL);
    }
    SS_TRY(convert_children(c, config_root_setting(&config), c->out->root));
    if (c->next != c->scan->count) {
        SS_TRY(SS_ERROR_INTERNAL);
    }
    SS_TRY(say_late(c));
    if (c->late_count > 0) {
        status = SS_ERROR_DESCRIPTION;
    }
done:
    config_destroy(&config);
    ss_free(c->late);
    return status;
}

/* A description to be read: from a file, or from bytes. */
typedef struct origin {
    const char *name;
    const char *bytes; /* NULL: the file called `name` */
    size_t length;
} origin;

static ss_status read(const origin *from, ss_description *out, ss_diag_list *diags, ss_error *error) {
    ss_status status = SS_OK;
    bool readable = false; /* there is a tree, perhaps a faulty one */
    ss_source source = {0};
    ss_scan scan = {0};
    *out = (ss_description){0};
    SS_TRY(ss_description_init(out));
    if (from->bytes == NULL) {
        SS_TRY(ss_source_read(&source, from->name, &out->arena, diags, error));
    } else {
        SS_TRY(ss_source_take(&source, from->name, from->bytes, from->length, &out->arena, diags, error));
    }
    out->digest = source.digest;
    out->root->where = ss_source_place(&source, 1);
    SS_TRY(ss_scan_read(&scan, &source, diags));
    conversion c = {.source = &source, .scan = &scan, .out = out, .diags = diags};
    status = parse(&c);
    readable = status == SS_OK || (status == SS_ERROR_DESCRIPTION && c.next == scan.count && scan.count > 0);
done:
    if (status == SS_ERROR_MEMORY) {
        ss_error_set(error, status, "there is not enough memory to read %s", from->name);
    }
    if (status == SS_ERROR_INTERNAL) {
        ss_error_set(error, status, "%s was understood in two ways", from->name);
    }
    if (status == SS_ERROR_DESCRIPTION) {
        ss_error_set(error, status, "%s has faults", from->name);
    }
    if (!readable) {
        ss_description_destroy(out);
    }
    ss_scan_destroy(&scan);
    ss_source_destroy(&source);
    return status;
}

ss_status ss_description_read(const char *path, ss_description *out, ss_diag_list *diags, ss_error *error) {
    return read(&(origin){.name = path}, out, diags, error);
}

ss_status ss_description_read_text(const char *name, const char *text, size_t length, ss_description *out,
                                   ss_diag_list *diags, ss_error *error) {
    return read(&(origin){.name = name, .bytes = text == NULL ? "" : text, .length = length}, out, diags,
                error);
}
