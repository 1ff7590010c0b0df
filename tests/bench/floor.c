/* The least that a compiler of posts can do: read each file, run libyaml's events over its front
 * matter and cmark over its body, and write three files. `floor CONTENT OUT [BYTES BYTES BYTES
 * [renamed]]`: the sizes of the three; without them each is as large as the post. `renamed`: each
 * is written under a temporary name first, as what must never be seen half written is. */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmark.h>
#include <yaml.h>

enum { MOST = 1 << 22 };

static void
fail(const char *what)
{
    perror(what);
    exit(3);
}

static size_t
read_file(int folder, const char *name, char *bytes)
{
    int fd = openat(folder, name, O_RDONLY);
    struct stat s;
    if (fd < 0 || fstat(fd, &s) != 0)
        fail(name);
    ssize_t n = read(fd, bytes, MOST);
    if (n < 0)
        fail(name);
    close(fd);
    return (size_t)n;
}

static size_t
run_events(const char *bytes, size_t length)
{
    yaml_parser_t parser;
    yaml_event_t event;
    size_t events = 0;
    if (!yaml_parser_initialize(&parser))
        fail("yaml");
    yaml_parser_set_input_string(&parser, (const unsigned char *)bytes, length);
    for (int done = 0; !done; events++) {
        if (!yaml_parser_parse(&parser, &event))
            break;
        done = event.type == YAML_STREAM_END_EVENT;
        yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
    return events;
}

static void
write_file(int folder, const char *name, const char *bytes, size_t length, bool renamed)
{
    char temporary[300];
    snprintf(temporary, sizeof temporary, ".%s.tmp", name);
    int fd = openat(folder, renamed ? temporary : name, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    if (fd < 0 || write(fd, bytes, length) != (ssize_t)length || close(fd) != 0 ||
        (renamed && renameat(folder, temporary, folder, name) != 0))
        fail(name);
}

static int
folder_open(const char *path, const char *sub)
{
    char whole[4096];
    snprintf(whole, sizeof whole, "%s/%s", path, sub);
    if (mkdir(whole, 0777) != 0 && errno != EEXIST)
        fail(whole);
    int fd = open(whole, O_RDONLY | O_DIRECTORY);
    if (fd < 0)
        fail(whole);
    return fd;
}

int
main(int argc, char **argv)
{
    bool renamed = argc == 7 && strcmp(argv[6], "renamed") == 0;
    if (argc != 3 && argc != 6 && !renamed) {
        fputs("usage: floor CONTENT OUT [BYTES BYTES BYTES [renamed]]\n", stderr);
        return 2;
    }
    static char bytes[MOST], filler[MOST];
    memset(filler, 'x', sizeof filler);
    mkdir(argv[2], 0777);
    int outs[3] = {folder_open(argv[2], "fragments"), folder_open(argv[2], "data"),
                   folder_open(argv[2], "preview")};
    DIR *d = opendir(argv[1]);
    if (d == NULL)
        fail(argv[1]);
    size_t posts = 0, events = 0, html_bytes = 0;
    for (struct dirent *e; (e = readdir(d)) != NULL;) {
        if (e->d_name[0] == '.')
            continue;
        size_t length = read_file(dirfd(d), e->d_name, bytes);
        bytes[length] = '\0';
        char *end = strstr(bytes + 3, "\n---\n");
        if (end == NULL)
            continue;
        events += run_events(bytes, (size_t)(end - bytes));
        char *html = cmark_markdown_to_html(end + 5, length - (size_t)(end + 5 - bytes), 0);
        html_bytes += strlen(html);
        free(html);
        for (int i = 0; i < 3; i++) {
            size_t size = argc >= 6 ? strtoul(argv[3 + i], NULL, 10) : length;
            write_file(outs[i], e->d_name, filler, size < MOST ? size : MOST, renamed);
        }
        posts++;
    }
    closedir(d);
    printf("%zu posts, %zu events, %zu bytes of HTML\n", posts, events, html_bytes);
    return 0;
}
