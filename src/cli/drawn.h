/* drawn.h - what `draw --of` names, found in the bridge. */
#ifndef SS_CLI_DRAWN_H
#define SS_CLI_DRAWN_H

#include "cli/run.h"

/** Whether figures along the bridge have that line: those named by --of, all for "all", else main girders and
 * the edge girder that governs a rating, if there is one. */
bool ss_drawn_line(const ss_pipe *pipe, const ss_invocation *asked, int line);

/** The effect that --of, --at and --effect name; the mesh must be there. False: said in `text` why not. */
bool ss_drawn_effect(const ss_pipe *pipe, const ss_invocation *asked, ss_effect *out, ss_text *text);

/** Whether --of names a line, or "all"; else says in `text` which there are. */
bool ss_drawn_has_line(const ss_pipe *pipe, const ss_invocation *asked, ss_text *text);

#endif
