/* Language tags as RFC 5646 (BCP 47) shapes them: en, en-GB, zh-Hant-TW. */
#ifndef READ_LANGUAGE_TAG_H
#define READ_LANGUAGE_TAG_H

#include "base/text.h"

/* whether the text has the shape of a tag; that a language of that name is registered is not asked
 */
bool language_tag_valid(struct slice text);
/* whether its people write 1,5 for one and a half (as the Unicode Common Locale Data Repository
 * has it, from memory) */
bool language_tag_decimal_comma(struct slice text);

#endif
