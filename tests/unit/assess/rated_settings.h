/* rated_settings.h - the settings of a rating that the tests start from. */
#ifndef SS_TEST_RATED_SETTINGS_H
#define SS_TEST_RATED_SETTINGS_H

#include <math.h>

#include "sillspan/bridge.h"

/** Condition 0.95, 20 trucks a day, 20 percent for the approach, and no factor that the bridge's owner set.
 */
static inline ss_rating_settings rated_settings(double system) {
    return (ss_rating_settings){.condition = 0.95,
                                .system = system,
                                .adtt = 20,
                                .approach_allowance = 0.20,
                                .dynamic_allowance = (double)NAN,
                                .live_factor = (double)NAN,
                                .dw_factor = (double)NAN,
                                .dc_factor = 1.25,
                                .phi_flexure = 1.0,
                                .phi_shear = 1.0};
}

#endif
