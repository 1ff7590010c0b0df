#include "tables/table_confinement.h"

#include <sys/stat.h>
#include <unistd.h>

#include "tables/table_store.h"

/* a table may be a link to one that several sites share */
static void
allow_linked(struct confinement *c, const char *path)
{
    struct stat s;
    if (lstat(path, &s) == 0 && S_ISLNK(s.st_mode))
        confinement_allow(c, path, CONFINEMENT_READ);
}

bool
table_confinement_allow(struct arena *a, const struct table_layers *layers, struct confinement *c,
                        struct failure *f)
{
    struct table_files files;
    if (!table_files_list(a, layers, &files, f))
        return false;
    for (size_t i = 0; i < layers->count; i++) {
        confinement_allow(c, layers->folders[i], CONFINEMENT_READ);
        allow_linked(c, text_format(a, "%s/foods", layers->folders[i]));
    }
    for (size_t i = 0; i < files.count; i++)
        allow_linked(c, files.items[i].path);
    if (layers->site != NULL)
        confinement_allow(c, layers->site, CONFINEMENT_READ);
    const int store = table_store_open(a);
    confinement_allow_open(c, store, CONFINEMENT_WRITE);
    if (store >= 0)
        close(store);
    return true;
}
