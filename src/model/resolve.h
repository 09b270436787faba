/* resolve.h - what the parts of resolving a bridge share: the reading, the bridge in the making, car types,
 * names. */
#ifndef SS_MODEL_RESOLVE_H
#define SS_MODEL_RESOLVE_H

#include "sillspan/bridge.h"
#include "sillspan/text.h"

/** Places closer than this, in m, are the same: far below a tape's reading, far above rounding. */
#define SS_SAME_PLACE 1e-6

/** Room for one quantity in words. */
enum { SS_WORDS = 64 };

/** A line of a car type, x and y in the car's own axes (x from the near end, y right of the middle). */
typedef struct ss_type_line {
    const ss_node *node;
    const char *set;
    int member, members; /**< its number in the set from 1, and how many there are */
    ss_role role;
    double y, x0, x1;
    int section, steel;              /**< steel -1: the car's */
    double unbraced, Cb, stiffeners; /**< NaN when not given */
    const double *point_x, *point_depth;
    int point_count;
} ss_type_line;

/** A floor beam of a car type, in the car's own axes. */
typedef struct ss_type_beam {
    const ss_node *node;
    const char *set;
    int members;
    double x;
    int section, steel;
    const ss_beam_part *parts; /**< sorted, covering the car's width */
    int part_count;
    const int *hinges; /**< indices of the type's lines */
    int hinge_count;
} ss_type_beam;

typedef struct ss_car_type {
    const ss_node *node;
    const char *name;
    double length, width;
    int steel;
    double wheel_truck[2];        /**< NaN when not given */
    double detail_weight, weight; /**< weight NaN when not known; detail_weight NaN until it is needed */
    ss_type_line *lines;          /**< sorted by y, then x0 */
    int line_count;
    ss_type_beam *beams; /**< sorted by x */
    int beam_count;
    bool sound; /**< whether cars can be made of it */
} ss_car_type;

typedef struct ss_resolve {
    ss_reading reading;
    const ss_node *root;
    const ss_node *node;     /**< the group "bridge", or NULL */
    const ss_node *variants; /**< the list of them; NULL: none, or this is one */
    ss_bridge *bridge;
    ss_arena scratch;
    ss_car_type *types; /**< as in the list "cars" */
    int type_count;
    const ss_node **car_nodes; /**< of each bridge->cars */
    int *car_types;            /**< index in types of each bridge->cars, or -1 */
    bool *section_sound;       /**< of each bridge->sections */
    ss_vehicle *trucks;        /**< the user's own */
    int truck_count;
    bool placed;                       /**< every car has its place, so that x and y can be judged */
    bool laid;                         /**< every car has its lines */
    bool joints_sound, bearings_sound; /**< no fault in them, so that probes can be judged */
    bool broken;                      /**< something due is absent or faulty, so that no bridge comes of it */
    struct ss_finding_item *findings; /**< those in use, as bridge->findings */
    ss_dead_when old_deck, old_surfacing, old_rails; /**< what becomes of them where a slab is cast */
} ss_resolve;

/** What a number of chars or items needs. NULL, and the reading's status set, without memory. */
void *ss_resolve_alloc(ss_resolve *c, size_t count, size_t size);
void *ss_resolve_scratch(ss_resolve *c, size_t count, size_t size);
/** The array with room for one more zeroed item, in the bridge's arena. */
void *ss_resolve_grow(ss_resolve *c, void *items, int count, size_t size);
/** Copies into the bridge's arena. */
const char *ss_resolve_text(ss_resolve *c, const char *text);
const char *ss_resolve_numbered(ss_resolve *c, const char *set, int member, int members);
bool ss_resolve_out_of_memory(const ss_resolve *c);

/** A length in words, in the units of the output. */
const char *ss_resolve_length(const ss_resolve *c, double value, char buffer[SS_WORDS]);
const char *ss_resolve_quantity(const ss_resolve *c, double value, ss_dimension dimension,
                                char buffer[SS_WORDS]);

/** The list at a key of a group; NULL when absent or no list. */
const ss_node *ss_resolve_list(const ss_node *group, const char *key);
/** The text of the item's name, "" when it has none. */
const char *ss_resolve_name(const ss_node *item);

/** A quantity that must be there; absence marks the resolving as broken (the check has said why). */
bool ss_resolve_due(ss_resolve *c, const ss_node *group, const char *table_path, double *out);
/** A quantity that is due only here: absence is a fault "not given; <why>". */
bool ss_resolve_need(ss_resolve *c, const ss_node *group, const char *table_path, const char *why,
                     double *out);
/** A quantity that may be absent: then NaN. */
double ss_resolve_optional(ss_resolve *c, const ss_node *group, const char *table_path);
/** A fault for each of the keys ("a|b|c") that is given. */
void ss_resolve_forbid(ss_resolve *c, const ss_node *group, const char *keys, const char *why);
void ss_resolve_assume(ss_resolve *c, const ss_node *group, const char *key, const char *value,
                       const char *why);

/** The fault `no <noun> is called "word"; ...` with the nearest or all of the words. */
void ss_resolve_unknown(ss_resolve *c, const ss_node *at, const char *key, const char *noun, const char *word,
                        const char *const *words, int count);
/** Index in the list of the item that the text at `key` names; -1 when absent, faulty or unknown (a fault).
 */
int ss_resolve_reference(ss_resolve *c, const ss_node *group, const char *table_path, const char *list,
                         const char *noun);

/** What `word` names among the lines of a car type: fills `picked` (one flag a line) and returns how many; a
 * set's name means all of it. */
int ss_resolve_type_lines(const ss_car_type *type, const char *word, bool *picked);
/** Whether the section can follow the line's taper; otherwise a fault at the key. */
bool ss_resolve_depth_fits(ss_resolve *c, const ss_node *at, const char *key, const ss_type_line *line,
                           int section);
/** Words that name lines of the type, for the nearest; in the scratch arena. */
const char **ss_resolve_type_words(ss_resolve *c, const ss_car_type *type, int *count);

/** The bridge's car called `word`; -1 on a fault, which stands at the key. */
int ss_resolve_car_named(ss_resolve *c, const ss_node *at, const char *key, const char *word);

/** The bridge's car called so at the key; -1 on absence or fault. */
int ss_resolve_car_reference(ss_resolve *c, const ss_node *group, const char *table_path);
/** The one line of a car that the keys `car` and `on` (or `line`) name; -1 on absence or fault. */
int ss_resolve_line_of_car(ss_resolve *c, const ss_node *group, const char *table_path, int car);
/** The one floor beam of a car that the key names; -1 on absence or fault. */
int ss_resolve_beam_of_car(ss_resolve *c, const ss_node *group, const char *table_path, int car);

/** Index in bridge->vehicles of the truck named at the key, added when new; -1 on absence or fault. */
int ss_resolve_truck_reference(ss_resolve *c, const ss_node *group, const char *table_path);
/** Where something stands across: y, or the line that the keys `car` and `on` name (else -1). */
typedef struct ss_across {
    double y;
    int line;
} ss_across;

/** Table paths of the keys that say where something stands across. */
typedef struct ss_across_keys {
    const char *y, *car, *on;
} ss_across_keys;

/** Exactly one of y and car with on is due; false on a fault. */
bool ss_resolve_across(ss_resolve *c, const ss_node *group, ss_across_keys keys, ss_across *out);
/** Whether all wheels of a truck whose middle goes along y stand on the cars; else a fault at the key. */
bool ss_resolve_truck_fits(ss_resolve *c, const ss_node *group, int vehicle, double y);

/** The same for a name at a node. */
int ss_resolve_truck_named(ss_resolve *c, const ss_node *at, const char *key, const char *name);
/** Whether a vehicle of that class is rated: among the trucks, or along a run (runs may not be read yet). */
bool ss_resolve_rates(ss_resolve *c, ss_vehicle_class kind);

/* The steps, in this order; each reports its own faults and goes on. */
void ss_resolve_steels(ss_resolve *c);
void ss_resolve_sections(ss_resolve *c);
void ss_resolve_car_types(ss_resolve *c);
void ss_resolve_type_beams(ss_resolve *c, ss_car_type *type);
void ss_resolve_cars(ss_resolve *c);
void ss_resolve_car_weights(ss_resolve *c);
/** Findings, in turn: of lines and floor beams, before anything rests on them; of joints and bearings; of the
 * deck. */
void ss_resolve_findings(ss_resolve *c);
void ss_resolve_support_findings(ss_resolve *c);
void ss_resolve_deck_findings(ss_resolve *c);
void ss_resolve_joints(ss_resolve *c);
void ss_resolve_bearings(ss_resolve *c);
void ss_resolve_deck(ss_resolve *c);
/** What a deck of the list can carry under a wheel, where something of it is given. */
void ss_resolve_deck_wheel(ss_resolve *c, const ss_node *item, ss_deck *deck);
void ss_resolve_dead_loads(ss_resolve *c);
/** A slab cast on the cars: all but its loads, which come after those of the bridge as it is. */
void ss_resolve_slab(ss_resolve *c);
void ss_resolve_slab_loads(ss_resolve *c);
void ss_resolve_slab_remarks(ss_resolve *c);
/** One more dead load; false without memory. */
bool ss_resolve_add_dead_load(ss_resolve *c, ss_dead_load load);
void ss_resolve_user_trucks(ss_resolve *c);
void ss_resolve_rating(ss_resolve *c);
/** Parts of the rating: methods and levels, and once the trucks are known what goes with them. */
void ss_resolve_methods(ss_resolve *c, const ss_node *rating);
void ss_resolve_method_settings(ss_resolve *c, const ss_node *rating);
void ss_resolve_crossings(ss_resolve *c);
void ss_resolve_cases(ss_resolve *c);
void ss_resolve_runs(ss_resolve *c);
void ss_resolve_probes(ss_resolve *c);
void ss_resolve_fatigue(ss_resolve *c);
/** What a search for a concrete deck goes through. */
void ss_resolve_sizing(ss_resolve *c);
/** Last of what reads keys: what is unknown may be any of them. */
void ss_resolve_unknowns(ss_resolve *c);
void ss_resolve_remarks(ss_resolve *c);
void ss_resolve_primary(ss_resolve *c);
/** A fault where there is more to compute than is sensible. */
void ss_resolve_size(ss_resolve *c);

#endif
