# For a site's own Makefile:  include /usr/local/share/dariole/dariole.mk
# before its own rules; what a bare `make` makes stays the first of those.
# `make recipes` presses the posts. A page names the fragments it includes among what it is made from,
# $(DARIOLE_OUT)/fragments/SLUG.html, and is made anew when one of them did change; a page that lists
# recipes names $(DARIOLE_STAMP).

DARIOLE_GOAL := $(.DEFAULT_GOAL)
DARIOLE ?= dariole
DARIOLE_CONTENT ?= content
DARIOLE_OUT ?= build/recipes
DARIOLE_FLAGS ?=
DARIOLE_STAMP = $(DARIOLE_OUT)/catalogue.json

recipes:
	$(DARIOLE) press -C $(DARIOLE_CONTENT) -o $(DARIOLE_OUT) $(DARIOLE_FLAGS)

recipes-proof:
	$(DARIOLE) proof -C $(DARIOLE_CONTENT)

# with an empty recipe make looks whether the file did change
$(DARIOLE_STAMP): recipes ;
$(DARIOLE_OUT)/%: recipes ;

# what is made by a pattern counts as half-way, and would be deleted
.PRECIOUS: $(DARIOLE_OUT)/%

.PHONY: recipes recipes-proof

.DEFAULT_GOAL := $(DARIOLE_GOAL)
