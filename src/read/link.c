#include "read/link.h"

#include <string.h>

bool
link_is_safe(struct slice url)
{
    static const char *const schemes[] = {"http", "https", "mailto"};
    for (size_t i = 0; i < url.length; i++)
        if ((unsigned char)url.at[i] < 0x20 || url.at[i] == 0x7f || (i == 0 && url.at[i] == ' '))
            return false;
    size_t n = 0;
    while (n < url.length && strchr(":/?#", url.at[n]) == NULL)
        n++;
    if (n == url.length || url.at[n] != ':')
        return true;
    for (size_t i = 0; i < sizeof schemes / sizeof *schemes; i++)
        if (slice_is_anycase(slice_part(url, 0, n), schemes[i]))
            return true;
    return false;
}

bool
link_is_beside(struct slice url)
{
    size_t n = 0;
    while (n < url.length && strchr(":/?#", url.at[n]) == NULL)
        n++;
    return n > 0 && (n == url.length || url.at[n] != ':');
}

struct slice
link_post(struct slice url, struct slice *rest)
{
    const size_t at = slice_find(url, ".md", 0);
    *rest = SLICE("");
    if (at == SIZE_MAX || (at + 3 < url.length && url.at[at + 3] != '#') ||
        slice_find(url, "://", 0) != SIZE_MAX || slice_begins(url, "mailto:"))
        return SLICE("");
    *rest = slice_part(url, at + 3, url.length);
    size_t from = at;
    while (from > 0 && url.at[from - 1] != '/')
        from--;
    return slice_part(url, from, at);
}
