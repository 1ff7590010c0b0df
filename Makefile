# make            build/dariole
# make demo       installs what is missing, builds, compiles content/
# make check      installs what the tests need, runs all of them
# make bench      what it costs, as ratios in one run
# make install    PREFIX and DESTDIR as usual
# make dist, make deb  the source as a tarball, Debian's package
# make sbom       the libraries that the program is made of

PREFIX = /usr/local
DESTDIR =
B = build
CC = cc
CFLAGS = -O2 -g
WARNINGS = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes \
	-Wmissing-prototypes -Werror
PACKAGES = yaml-0.1 libcmark jansson libxxhash libseccomp
# what is built says nothing of where: the same bytes come of any folder
ALL_CFLAGS = -std=c11 -ffile-prefix-map=$(CURDIR)=. -D_POSIX_C_SOURCE=200809L -Isrc $(WARNINGS) -pthread $(CFLAGS) \
	-DDARIOLE_TABLES='"$(PREFIX)/share/dariole/tables"' $(shell pkg-config --cflags $(PACKAGES))
LDFLAGS =
ALL_LIBS = -Wl,--build-id $(LDFLAGS) $(shell pkg-config --libs $(PACKAGES)) -lunistring -lm

SOURCES = $(sort $(wildcard src/*/*.c))
OBJECTS = $(SOURCES:src/%.c=$B/%.o) $B/write/stylesheet.o
UNIT = $(patsubst tests/unit/%.c,$B/unit/%,$(wildcard tests/unit/test_*.c))

all: $B/dariole

$B/dariole: $B/main.o $B/libdariole.a
	$(CC) $(ALL_CFLAGS) -o $@ $^ $(ALL_LIBS)

$B/libdariole.a: $(OBJECTS)
	@rm -f $@
	$(AR) rcs $@ $^

$B/%.o: src/%.c
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -MMD -MP -c -o $@ $<

# the stylesheets and the script as C strings
$B/write/stylesheet.o: src/write/dariole.css src/write/preview.css src/write/preview.js src/write/fragment.h src/write/preview.h
	@mkdir -p $(@D)
	@bytes() { echo "const char $$1[] = {"; od -An -v -tu1 "$$2" | sed 's/[0-9][0-9]*/&,/g'; echo '0};'; }; \
	{ echo '#include "write/preview.h"'; bytes fragment_stylesheet src/write/dariole.css; \
	  bytes preview_stylesheet src/write/preview.css; \
	  bytes preview_script src/write/preview.js; } >$B/write/stylesheet.c
	$(CC) $(ALL_CFLAGS) -c -o $@ $B/write/stylesheet.c

# every header is whole by itself
$B/headers.ok: $(shell find src -name '*.h')
	@mkdir -p $(@D)
	@for h in $^; do $(CC) $(ALL_CFLAGS) -Wno-pedantic -fsyntax-only -x c $$h || exit 1; done
	@touch $@

unit: $(UNIT)

setup:
	@tools/setup build

demo: setup
	@$(MAKE) -s all
	@$B/dariole press -C content -o $B/site
	@echo "Look at $B/site/preview/index.html in a browser; fragments are in $B/site/fragments."

SANITIZED = B=$B/san CFLAGS="-O1 -g -fsanitize=address,undefined -fno-omit-frame-pointer"

# everything that tests/run runs
tests: all unit $B/headers.ok $B/outside/chance
	@$(MAKE) -s $(SANITIZED) all unit harnesses

check:
	@tools/setup tests
	@$(MAKE) -s tests
	@cd tests && npm ci --loglevel=error --no-audit --no-fund --ignore-scripts
	@tests/run

# harnesses for fuzzing, every piece of memory a malloc of its own; without a fuzzer they only replay
HARNESSES = post lines tables press
FUZZED = tests/fuzz/oracles.c tests/fuzz/rooms.c tests/fuzz/arena_apart.c
DRIVER = tests/fuzz/replay.c
harnesses: $(HARNESSES:%=$B/fuzz_%)

$B/fuzz_%: tests/fuzz/fuzz_%.c $(FUZZED) $(wildcard tests/fuzz/*.h) $(DRIVER) $B/libdariole.a
	$(CC) $(ALL_CFLAGS) -Wno-missing-prototypes -Itests/fuzz -o $@ $< $(FUZZED) $(DRIVER) \
	  $B/libdariole.a $(ALL_LIBS)

FUZZING = B=$B/fuzz CC=clang DRIVER= WARNINGS=-w \
	CFLAGS="-O1 -g -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined"
SECONDS = 60
# make fuzz SECONDS=3600: each harness for so long, with clang; what it finds is put in build/fuzz
fuzz:
	@$(MAKE) -s $(FUZZING) $B/fuzz/libdariole.a
	@$(MAKE) -s $(FUZZING) ALL_LIBS="$(ALL_LIBS) -fsanitize=fuzzer" harnesses
	@for h in $(HARNESSES); do mkdir -p $B/fuzz/corpus/$$h; \
	  case $$h in post) seeds=tests/posts ;; *) seeds= ;; esac; \
	  case $$h in post | lines) words=-dict=tests/fuzz/words.dict ;; *) words= ;; esac; \
	  $B/fuzz/fuzz_$$h -max_total_time=$(SECONDS) -timeout=20 -rss_limit_mb=3000 -print_final_stats=1 $$words \
	    -artifact_prefix=$B/fuzz/$$h- $B/fuzz/corpus/$$h tests/fuzz/$$h $$seeds || exit 1; done

# 100 small changes in meaning, each against unit tests and posts: tests/mutants says how
mutants:
	@tests/mutants

# the libraries and their versions, as CycloneDX
sbom: all
	@tools/sbom $B/dariole

# build/package: the source as a tarball, and Debian's package of it
dist:
	@tools/package dist

deb:
	@tools/setup deb
	@tools/package deb

# the package in a bare Debian, as root
check-package: deb
	@tools/setup bare
	@tests/bare/package.sh

# what it costs, as ratios in one run; tests/bench/README.md says how and keeps a table
bench: all
	@tests/bench/bench.sh

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/share/dariole
	install -m 755 $B/dariole $(DESTDIR)$(PREFIX)/bin/dariole
	cp -R content/tables schemas $(DESTDIR)$(PREFIX)/share/dariole/
	install -m 644 tools/dariole.mk $(DESTDIR)$(PREFIX)/share/dariole/
	install -m 755 tools/pre-commit $(DESTDIR)$(PREFIX)/share/dariole/
	install -d $(DESTDIR)$(PREFIX)/share/man/man1 $(DESTDIR)$(PREFIX)/share/man/man5
	install -m 644 tools/man/dariole.1 $(DESTDIR)$(PREFIX)/share/man/man1/
	install -m 644 tools/man/dariole-post.5 tools/man/dariole-tables.5 $(DESTDIR)$(PREFIX)/share/man/man5/
	install -d $(DESTDIR)$(PREFIX)/share/bash-completion/completions
	install -m 644 tools/dariole.bash $(DESTDIR)$(PREFIX)/share/bash-completion/completions/dariole

$B/unit/%: tests/unit/%.c $(wildcard tests/unit/*.h) $B/libdariole.a
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -Wno-missing-prototypes -Itests/unit -o $@ $< $B/libdariole.a $(ALL_LIBS) -lcmocka

$B/outside/%: tests/outside/%.c $B/libdariole.a
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -o $@ $< $B/libdariole.a $(ALL_LIBS)

clean:
	rm -rf $B

.PHONY: all unit mutants harnesses fuzz setup demo tests check bench sbom dist deb check-package install clean

-include $(OBJECTS:.o=.d) $B/main.d
