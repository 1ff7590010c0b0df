#include "base/failure.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

bool
failure_say(struct failure *f, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    vsnprintf(f->text, sizeof f->text, format, args);
    va_end(args);
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
    errno = error;
    return false;
}
