/* libyaml's words for what it cannot read, in words for somebody who writes recipes, and what to
 * do. */
#ifndef READ_YAML_FAULT_H
#define READ_YAML_FAULT_H

struct yaml_fault {
    const char *words; /* what is wrong */
    const char *mend;  /* how to mend it */
};

/* of a problem as libyaml or yaml_tree names it; what is not listed keeps its own words */
struct yaml_fault yaml_fault_of(const char *problem);

#endif
