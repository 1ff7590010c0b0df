/* Writes what a press would believe, were it not looked at: forge manifest FILE SLUG PATTERN, a
 * manifest of one output; forge ledger FILE OLD NEW, a ledger with a text changed in all places,
 * its lengths and its digest as they should be (NEW is cut or ends with the bytes of OLD behind
 * it). */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <xxhash.h>

/* where the ledger says how many bytes its texts are, behind its digest */
enum { strings_at = 80 };

static void
line(FILE *to, const char *text)
{
    unsigned long long check = XXH3_64bits_withSeed(text, strlen(text), 0);
    for (int i = 0; i < 8; i++, check >>= 4)
        fputc("0123456789abcdef"[check & 15], to);
    fprintf(to, "\t%s\n", text);
}

static int
forge_manifest(char **argv)
{
    char text[8192];
    FILE *to = fopen(argv[2], "w");
    if (to == NULL)
        return 1;
    line(to, ".manifest 1");
    snprintf(text, sizeof text, "%s\t%s", argv[3], argv[4]);
    line(to, text);
    snprintf(text, sizeof text, ".end %ld", ftell(to));
    line(to, text);
    return fclose(to);
}

/* a ledger's texts are known by where they begin and how long they are: eight bytes */
static int
forge_ledger(char **argv)
{
    static unsigned char bytes[1 << 20];
    FILE *from = fopen(argv[2], "rb");
    if (from == NULL)
        return 1;
    size_t size = fread(bytes, 1, sizeof bytes / 2, from), old = strlen(argv[3]),
           new = strlen(argv[4]);
    fclose(from);
    int done = 0;
    /* the texts are the last part; where the new one does not fit, it stands at the very end */
    unsigned long long strings;
    memcpy(&strings, bytes + strings_at, 8);
    size_t begin = size - strings;
    memcpy(bytes + size, argv[4], new);
    for (size_t at = begin; at + old <= size; at++) {
        if (memcmp(bytes + at, argv[3], old) != 0)
            continue;
        unsigned place[2] = {(unsigned)(at - begin), (unsigned)old},
                 other[2] = {(unsigned)strings, (unsigned)new};
        for (size_t i = 8; i + 8 <= begin; i += 4)
            if (memcmp(bytes + i, place, 8) == 0) {
                memcpy(bytes + i, other, 8);
                done++;
            }
    }
    strings += new;
    memcpy(bytes + strings_at, &strings, 8);
    unsigned long long check = XXH3_64bits(bytes + 8, size + new - 8);
    memcpy(bytes, &check, 8);
    FILE *to = fopen(argv[2], "wb");
    return to == NULL || fwrite(bytes, 1, size + new, to) != size + new || fclose(to) != 0 ||
           done == 0;
}

int
main(int argc, char **argv)
{
    if (argc != 5)
        return 2;
    return strcmp(argv[1], "manifest") == 0 ? forge_manifest(argv) : forge_ledger(argv);
}
