/* document.h - docs/verification.md, made of the checks. */
#ifndef VERIFICATION_DOCUMENT_H
#define VERIFICATION_DOCUMENT_H

#include "sillspan/text.h"
#include "verification/check.h"

/** Appends the head of the page. */
void document_begin(ss_text *out);
void document_chapter(ss_text *out, const char *title);
void document_check(ss_text *out, const check *c, int number);

#endif
