/* fatigue_category.h - words for fatigue: detail categories, editions and how sure a life is to be. */
#ifndef SILLSPAN_FATIGUE_CATEGORY_H
#define SILLSPAN_FATIGUE_CATEGORY_H

/** Detail categories of AASHTO LRFD Table 6.6.1.2.3-1. */
typedef enum ss_fatigue_category {
    SS_FATIGUE_A = 0,
    SS_FATIGUE_B,
    SS_FATIGUE_B_PRIME,
    SS_FATIGUE_C,
    SS_FATIGUE_C_PRIME,
    SS_FATIGUE_D,
    SS_FATIGUE_E,
    SS_FATIGUE_E_PRIME,
    SS_FATIGUE_CATEGORIES
} ss_fatigue_category;

/** Which books. */
typedef enum ss_fatigue_edition {
    SS_FATIGUE_BEFORE_2017 = 0, /**< load factors 1.50 and 0.75 (LRFD 5th to 7th ed.), life factors of the
                                   Manual for Bridge Evaluation of 2008 */
    SS_FATIGUE_SINCE_2017       /**< 1.75 and 0.80 (8th ed. and later), life factors of the Manual as revised
                                   after 2012 */
} ss_fatigue_edition;

/** How sure a life is to be (Manual for Bridge Evaluation 7.2.5). */
typedef enum ss_fatigue_level {
    SS_FATIGUE_MINIMUM = 0, /**< as new bridges are designed: some 97.7 % last longer */
    SS_FATIGUE_EVALUATION,  /**< between; of the newer book evaluation 1, the more cautious of its two */
    SS_FATIGUE_MEAN,        /**< half of such details last longer */
    SS_FATIGUE_LEVELS
} ss_fatigue_level;

#endif
