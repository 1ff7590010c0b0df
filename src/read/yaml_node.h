/* A value of YAML with its place; read/yaml_tree.h makes a tree of them. */
#ifndef READ_YAML_NODE_H
#define READ_YAML_NODE_H

#include "base/notice.h"

enum yaml_kind { YAML_SCALAR_NODE, YAML_LIST_NODE, YAML_MAP_NODE };

struct yaml_node {
    enum yaml_kind kind;
    struct place place;       /* of the value; for a scalar its first character behind any quote */
    struct slice text;        /* scalar: its text */
    struct slice source;      /* scalar: its bytes in the file, quotes and block header included */
    bool quoted;              /* scalar: was in quotes or a block, so always a string */
    struct yaml_node **items; /* list: items; map: keys and values in turn */
    size_t count;             /* list: items; map: pairs */
};

#endif
