/* Whose temperature it is: an oven's, a food's core, the oil's, the syrup's; by the words around.
 */
#ifndef READ_HEAT_OF_H
#define READ_HEAT_OF_H

#include "read/words.h"

enum heat_of {
    HEAT_OF_OVEN,
    HEAT_OF_FOOD,
    HEAT_OF_OIL,
    HEAT_OF_SYRUP,
    HEAT_OF_WATER,
    HEAT_OF_ROOM,
    HEAT_OF_UNKNOWN
};

/* the temperature `celsius` in words first..end */
enum heat_of heat_of_words(const struct words *w, size_t first, size_t end, double celsius);

#endif
