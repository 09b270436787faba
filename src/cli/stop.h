/* stop.h - an interrupt that lets a long run end with what is finished. */
#ifndef SS_CLI_STOP_H
#define SS_CLI_STOP_H

#include <stdbool.h>

/** From now on the first interrupt (SIGINT, SIGTERM) only asks for a stop; a second one ends the process as
 * ever. A signal that is ignored stays so. */
void ss_stop_begin(void);

/** Whether there was one. */
bool ss_stop_asked(void);
/** The same for the library, without a context. */
bool ss_stop_wanted(void *context);

/** Interrupts end the process again. */
void ss_stop_end(void);

#endif
