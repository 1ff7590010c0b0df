/* Whose temperature it is: an oven's, a food's core, the oil's, the syrup's; by the words around.
 */
#ifndef READ_HEAT_OF_H
#define READ_HEAT_OF_H

#include "read/heat.h"

/* the temperature `celsius` in words first..end */
enum heat_of heat_of_words(const struct words *w, size_t first, size_t end, double celsius);

#endif
