/* trains.h - vehicles as trains of fixed axles: what each is tried as. */
#ifndef SS_RESPONSE_TRAINS_H
#define SS_RESPONSE_TRAINS_H

#include "sillspan/mesh.h"

/** The trains of all vehicles that were asked for, each once. */
typedef struct ss_train_list {
    ss_vehicle *items;
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
 * without axles that may be left out at either end.
 */
ss_status ss_trains_of(ss_train_list *list, const ss_bridge *bridge, int vehicle, ss_error *error);

/** Steps of spacings that vary (m), and most of them in one range: wider ranges are those of pairs of trucks.
 */
#define SS_TRAIN_STEP 1.2192
enum { SS_TRAIN_PARTS = 8 };

#endif
