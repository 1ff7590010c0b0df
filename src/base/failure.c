#include "base/failure.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* it will be printed: a name in it may not move the cursor */
static void
clean(struct failure *f)
{
    for (char *c = f->text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || *c == 0x7f)
            *c = '?';
}

bool
failure_say(struct failure *f, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    vsnprintf(f->text, sizeof f->text, format, args);
    va_end(args);
    clean(f);
    return false;
}

bool
failure_say_errno(struct failure *f, const char *format, ...)
{
    int error = errno;
    va_list args;
    va_start(args, format);
    int n = vsnprintf(f->text, sizeof f->text, format, args);
    va_end(args);
    char words[128];
    if (strerror_r(error, words, sizeof words) != 0)
        snprintf(words, sizeof words, "error %d", error);
    size_t used = n < 0 ? 0 : (size_t)n;
    if (used < sizeof f->text)
        snprintf(f->text + used, sizeof f->text - used, ": %s", words);
    clean(f);
    errno = error;
    return false;
}
