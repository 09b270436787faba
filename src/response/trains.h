/* trains.h - vehicles as trains of fixed axles: what each is tried as. */
#ifndef SS_RESPONSE_TRAINS_H
#define SS_RESPONSE_TRAINS_H

#include "sillspan/envelope.h"

/** The trains of all vehicles that were asked for, each once. */
typedef struct ss_train_list {
    ss_vehicle *items;
    ss_train_origin *origins;
    bool *plain; /**< the loading itself, spacings at their least and all axles there */
    int count, capacity;
    int *first; /**< vehicle_count: first train of each vehicle, or -1 while it was not asked for */
    int *last;  /**< and the one after its last */
    int vehicle_count;
} ss_train_list;

ss_status ss_trains_create(const ss_bridge *bridge, ss_train_list *out, ss_error *error);
void ss_trains_destroy(ss_train_list *list);

/**
 * Makes the trains of a vehicle: one for each loading under its name, for spacings from the least to the most
 * in steps of SS_TRAIN_STEP or SS_TRAIN_PARTS of them (none longer than the bridge tells anything new), and
 * without axles that may be left out at either end. From the worst of them on, distances between the steps
 * are sought (spread.h).
 */
ss_status ss_trains_of(ss_train_list *list, const ss_bridge *bridge, int vehicle, ss_error *error);

/** Distances that the gap behind an axle of a train may have besides; false: it does not vary. */
bool ss_train_range(const ss_bridge *bridge, const ss_placements *placements, int train, int gap,
                    double *least, double *most);

/** Steps of spacings that vary (m), and most of them in one range: wider ranges are those of pairs of trucks.
 */
#define SS_TRAIN_STEP 1.2192
enum { SS_TRAIN_PARTS = 8 };

#endif
