# For a site's own Makefile:  include /usr/local/share/dariole/dariole.mk
# `make recipes` presses the posts; make the pages depend on $(DARIOLE_STAMP).

DARIOLE ?= dariole
DARIOLE_CONTENT ?= content
DARIOLE_OUT ?= build/recipes
DARIOLE_FLAGS ?=
DARIOLE_STAMP = $(DARIOLE_OUT)/catalogue.json

recipes:
	$(DARIOLE) press -C $(DARIOLE_CONTENT) -o $(DARIOLE_OUT) $(DARIOLE_FLAGS)

recipes-proof:
	$(DARIOLE) proof -C $(DARIOLE_CONTENT)

$(DARIOLE_STAMP): recipes

.PHONY: recipes recipes-proof
