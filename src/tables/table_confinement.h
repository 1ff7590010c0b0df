/* What a confined process may still open to have its tables. */
#ifndef TABLES_TABLE_CONFINEMENT_H
#define TABLES_TABLE_CONFINEMENT_H

#include "base/confinement.h"
#include "tables/table_files.h"

/* the layers' folders, whatever the links in them lead to, and the user's cache folder, which is
 * made where it is not there; false when a folder that is there cannot be read */
bool table_confinement_allow(struct arena *a, const struct table_layers *layers,
                             struct confinement *c, struct failure *f);

#endif
