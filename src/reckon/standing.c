#include "reckon/standing.h"

static const char *const words[] = {"within", "close", "unknown", "over"};

const char *
standing_word(enum standing s)
{
    return words[s];
}

const char *
standing_sentence(enum standing s)
{
    static const char *const sentences[] = {
        "One portion stays within the limits.",
        "One portion stays within the limits, but comes close to one of them.",
        "How one portion stands is not known: a figure is missing.",
        "One portion is over a limit.",
    };
    return sentences[s];
}

const char *
column_name(size_t column)
{
    return column == SITTING  ? "all that counts in one sitting"
           : column == SERVED ? "its serve"
                              : groups_name((enum group)column);
}

const char *
column_word(size_t column)
{
    return column == SITTING  ? "sitting"
           : column == SERVED ? "serve"
                              : groups_word((enum group)column);
}
