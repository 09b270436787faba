/* describe.c - the description as asked for: the file, what --set changes in it, and the variant that is
 * picked.
 */
#include "cli/describe.h"

#include <string.h>

#include "base/try.h"
#include "sillspan/probe.h"
#include "sillspan/reader.h"
#include "sillspan/text.h"
#include "sillspan/unknown.h"

/* --set path=value */
static ss_status apply_sets(const ss_invocation *asked, ss_description *description, ss_diag_list *diags) {
    for (int i = 0; i < asked->set_count; i++) {
        const char *equals = strchr(asked->sets[i], '=');
        ss_text path = {0};
        ss_text_add_bytes(&path, asked->sets[i], (size_t)(equals - asked->sets[i]));
        const ss_status status =
            path.failed ? SS_ERROR_MEMORY : ss_description_set(description, path.data, equals + 1, diags);
        ss_text_destroy(&path);
        /* Faults are collected, so that all of them are told in one run. */
        if (status != SS_OK && status != SS_ERROR_DESCRIPTION) {
            return status;
        }
    }
    return SS_OK;
}

/* --unknown PATH=LOW..HIGH */
static ss_status add_unknowns(const ss_invocation *asked, ss_description *description, ss_diag_list *diags) {
    const bool varied = (asked->command->bit & SS_IN_SWEEP) != 0; /* a sweep has them by themselves */
    for (int i = 0; i < asked->unknown_count && !varied; i++) {
        const ss_status status = ss_unknown_add(description, asked->unknowns[i], diags);
        if (status != SS_OK && status != SS_ERROR_DESCRIPTION) {
            return status;
        }
    }
    return SS_OK;
}

/* --influence with the keys of a probe, not with a name: names have no =. */
static bool has_keys(const ss_invocation *asked) {
    return asked->influence != NULL && strchr(asked->influence, '=') != NULL;
}

const char *ss_describe_probe(const ss_invocation *asked) {
    return has_keys(asked) ? "asked for" : asked->influence;
}

static ss_status add_probe(const ss_invocation *asked, ss_description *description, ss_diag_list *diags) {
    const ss_status status =
        has_keys(asked) ? ss_probe_add(description, ss_describe_probe(asked), asked->influence, diags)
                        : SS_OK;
    return status == SS_ERROR_DESCRIPTION ? SS_OK : status; /* told with the other faults */
}

/* Names in variants that nothing has are slips of the pen, whichever variant is looked at. */
static ss_status check_variants(const ss_description *description, ss_diag_list *diags) {
    const ss_node *const list = ss_description_variants(description);
    for (const ss_node *one = list == NULL ? NULL : list->first; one != NULL; one = one->next) {
        ss_description merged = {0};
        const ss_status status = ss_description_merge(description, one, &merged, diags);
        ss_description_destroy(&merged);
        if (status != SS_OK && status != SS_ERROR_DESCRIPTION) {
            return status;
        }
    }
    return SS_OK;
}

ss_status ss_describe_read(const ss_invocation *asked, ss_description *out, ss_diag_list *diags,
                           ss_error *error) {
    ss_status status = ss_description_read(asked->file, out, diags, error);
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || out->root == NULL)) {
        goto done;
    }
    SS_TRY(apply_sets(asked, out, diags));
    SS_TRY(add_unknowns(asked, out, diags));
    SS_TRY(add_probe(asked, out, diags));
    status = ss_description_check(out, diags);
    if (status == SS_OK && diags->faults == 0) {
        SS_TRY(check_variants(out, diags));
    }
    if (status == SS_OK && diags->faults > 0) {
        status = SS_ERROR_DESCRIPTION;
    }
done:
    return status;
}

/* The variant of that name, or a fault with the nearest one. */
static ss_status find(const ss_description *base, const char *name, const ss_node **out,
                      ss_diag_list *diags) {
    const ss_node *const list = ss_description_variants(base);
    *out = ss_node_named(list, name);
    if (*out != NULL) {
        return SS_OK;
    }
    enum { OFFERED = 20 };
    const char *names[OFFERED];
    int count = 0;
    for (const ss_node *one = list == NULL ? NULL : list->first; one != NULL && count < OFFERED;
         one = one->next) {
        names[count++] = ss_node_child(one, "name")->text;
    }
    ss_text message = {0};
    const char *const near = ss_text_nearest(name, names, count);
    ss_text_printf(&message, "no variant is called \"%s\"; ", name);
    if (near != NULL) {
        ss_text_printf(&message, "did you mean \"%s\"?", near);
    } else {
        ss_text_add(&message, count == 0 ? "the description has none" : "there are ");
    }
    for (int i = 0; near == NULL && i < count; i++) {
        ss_text_printf(&message, "%s\"%s\"", i == 0 ? "" : i == count - 1 ? " and " : ", ", names[i]);
    }
    ss_status status = message.failed
                           ? SS_ERROR_MEMORY
                           : ss_diag_add(diags, SS_FAULT, (ss_where){"--variant", 0}, "", "%s", message.data);
    ss_text_destroy(&message);
    return status == SS_OK ? SS_ERROR_DESCRIPTION : status;
}

ss_status ss_describe_pick(const ss_description *base, const char *name, const ss_node **variant,
                           ss_description *out, ss_diag_list *diags) {
    *variant = NULL;
    if (name == NULL) {
        return ss_description_copy(base, "variants", out);
    }
    const ss_status status = find(base, name, variant, diags);
    return status == SS_OK ? ss_description_vary(base, *variant, out, diags) : status;
}
