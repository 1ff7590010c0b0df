/* Runs a harness over files and folders of files, for builds without a fuzzer. Prints TAP. */
#define _XOPEN_SOURCE 700
#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

static size_t done;

static void
run_file(const char *path)
{
    FILE *from = fopen(path, "rb");
    if (from == NULL)
        return;
    uint8_t *bytes = malloc(4 << 20);
    const size_t length = fread(bytes, 1, 4 << 20, from);
    fclose(from);
    /* to the byte, so that one read too far is seen */
    uint8_t *own = malloc(length > 0 ? length : 1);
    memcpy(own, bytes, length);
    free(bytes);
    fprintf(stderr, "# %s\n", path);
    LLVMFuzzerTestOneInput(own, length);
    free(own);
    done++;
}

static void
run(const char *path)
{
    struct stat s;
    struct dirent **names;
    if (stat(path, &s) != 0 || !S_ISDIR(s.st_mode)) {
        run_file(path);
        return;
    }
    const int count = scandir(path, &names, NULL, alphasort);
    for (int i = 0; i < count; i++) {
        char inner[4096];
        snprintf(inner, sizeof inner, "%s/%s", path, names[i]->d_name);
        if (names[i]->d_name[0] != '.')
            run_file(inner);
        free(names[i]);
    }
    free(names);
}

int
main(int argc, char **argv)
{
    for (int i = 1; i < argc; i++)
        run(argv[i]);
    printf("%s 1 - %zu inputs\n1..1\n", done > 0 ? "ok" : "not ok", done);
    return 0;
}
