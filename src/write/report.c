#include "write/report.h"

#include <stdint.h>
#include <string.h>
#include <uniwidth.h>

#include "base/shown.h"
#include "write/json_writer.h"

enum { SHOWN_MOST = 160 }; /* characters of a source line */

/* the line of a source; *from is where line *number begins and moves on with it */
static struct slice
source_line(struct slice source, size_t *from, uint32_t *number, uint32_t wanted)
{
    if (wanted < *number) {
        *from = 0;
        *number = 1;
    }
    while (*number < wanted) {
        size_t end = slice_find_byte(source, '\n', *from);
        if (end == SIZE_MAX)
            return SLICE("");
        *from = end + 1;
        ++*number;
    }
    size_t end = slice_find_byte(source, '\n', *from);
    struct slice line = slice_part(source, *from, end);
    if (slice_ends(line, "\r"))
        line.length--;
    return line;
}

static void
add_times(struct text *t, char c, size_t count)
{
    text_widen(t, count);
    memset(t->bytes + t->length, c, count);
    t->length += count;
    t->bytes[t->length] = '\0';
}

/* columns that a character takes on a terminal */
static size_t
width_of(uint32_t u)
{
    if (u < 0x7f || shown_hidden(u))
        return 1;
    int width = uc_width(u, "UTF-8");
    return width < 0 ? 1 : (size_t)width;
}

/* bytes of the character at `at`, and the columns that it takes */
static inline size_t
step_over(struct slice s, size_t at, size_t *columns)
{
    size_t length = 1;
    *columns = 1;
    if (((unsigned char)s.at[at] & 0x80) != 0)
        *columns = width_of(shown_character(s, at, &length));
    return length;
}

/* the source line and a caret under the words; a long line is cut around them */
static void
add_source(struct text *t, struct slice line, const struct finding *f, const char *on,
           const char *off)
{
    size_t column = f->place.column - 1;
    size_t first = column > SHOWN_MOST / 2 ? column - SHOWN_MOST / 2 : 0;
    size_t before = 0, under = 0, n = 0;
    size_t marked = f->place.length > 0 ? f->place.length : 1;
    size_t i = 0, from = 0, columns;
    text_add_string(t, first > 0 ? "    … " : "    ");
    for (; i < line.length && n < first + SHOWN_MOST; n++) {
        i += step_over(line, i, &columns);
        if (n < first)
            from = i;
        else if (n < column)
            before += columns;
        else if (n < column + marked)
            under += columns;
    }
    shown_add(t, slice_part(line, from, i));
    text_add_string(t, i < line.length ? " …\n" : "\n");
    add_times(t, ' ', before + (first > 0 ? 6 : 4));
    text_add_string(t, on);
    add_times(t, '^', under > 0 ? under : 1);
    text_add_string(t, off);
    text_add_byte(t, '\n');
}

static void
add_head(struct text *t, const struct finding *f, const char *on, const char *off)
{
    shown_add(t, slice_of(f->path));
    text_add_byte(t, ':');
    text_add_whole(t, f->place.line > 0 ? f->place.line : 1);
    text_add_byte(t, ':');
    text_add_whole(t, f->place.column > 0 ? f->place.column : 1);
    text_add_string(t, ": ");
    text_add_string(t, on);
    text_add_string(t, finding_level_word(f->level));
    text_add_string(t, off);
    text_add_string(t, ": ");
    shown_add(t, f->message);
    text_add_string(t, " [");
    text_add_string(t, rules_row(f->rule)->id);
    text_add_string(t, "]\n");
}

void
report_text(struct text *t, const struct findings *f, struct slice source,
            const struct report_manner *manner)
{
    const char *on = manner->colour ? "\x1b[1m" : "", *off = manner->colour ? "\x1b[0m" : "";
    size_t from = 0;
    uint32_t number = 1;
    for (size_t i = 0; i < f->count; i++) {
        const struct finding *one = &f->items[i];
        add_head(t, one, on, off);
        if (manner->source_lines && one->place.line > 0 && one->place.column > 0) {
            struct slice line = source_line(source, &from, &number, one->place.line);
            if (line.length > 0)
                add_source(t, line, one, on, off);
        }
        if (one->answered) {
            text_add_string(t, "    answered in the post: ");
            shown_add(t, one->reason);
            text_add_byte(t, '\n');
        } else if (one->mend.length > 0) {
            text_add_string(t, "    ");
            shown_add(t, one->mend);
            text_add_byte(t, '\n');
        }
    }
}

void
report_json(struct text *t, const struct findings *f)
{
    struct json_writer n = json_new(t);
    json_open(&n, '[');
    for (size_t i = 0; i < f->count; i++) {
        const struct finding *one = &f->items[i];
        text_add_string(t, i == 0 ? "\n" : "");
        json_open(&n, '{');
        json_member_string(&n, "file", one->path);
        json_key(&n, "line");
        json_number(&n, one->place.line, 0);
        json_key(&n, "column");
        json_number(&n, one->place.column, 0);
        json_key(&n, "length");
        json_number(&n, one->place.length, 0);
        json_member_string(&n, "level", finding_level_word(one->level));
        json_member_string(&n, "rule", rules_row(one->rule)->id);
        json_member(&n, "message", one->message);
        json_member(&n, "mend", one->mend);
        json_key(&n, "answered");
        json_truth(&n, one->answered);
        if (one->answered)
            json_member(&n, "reason", one->reason);
        json_close(&n, '}');
        if (i + 1 == f->count)
            text_add_byte(t, '\n');
    }
    json_close(&n, ']');
    text_add_byte(t, '\n');
}

void
report_tables(struct text *t, const struct tables *tables)
{
    static const struct report_manner plain = {false, false};
    for (size_t i = 0; i < tables->notice_count; i++) {
        struct notices one = {.arena = t->arena};
        struct findings f;
        notice_pass(&one, &tables->notices[i].notice);
        findings_make(t->arena, tables->notices[i].path, &one, &f);
        report_text(t, &f, SLICE(""), &plain);
    }
}
