#include "write/sarif.h"

#include "version.h"
#include "write/json_writer.h"

/* a path as a relative URI reference: "posts/my%20soup.md" */
static struct slice
uri_of(struct arena *a, struct slice path)
{
    static const char hex[] = "0123456789ABCDEF";
    struct text t = text_new(a);
    while (slice_begins(path, "./"))
        path = slice_part(path, 2, path.length);
    for (size_t i = 0; i < path.length; i++) {
        unsigned char c = (unsigned char)path.at[i];
        bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                     c == '-' || c == '.' || c == '_' || c == '~' || c == '/';
        if (plain) {
            text_add_byte(&t, (char)c);
            continue;
        }
        char escaped[] = {'%', hex[c >> 4], hex[c & 15]};
        text_add_bytes(&t, escaped, sizeof escaped);
    }
    return text_slice(&t);
}

static void
add_message(struct json_writer *n, const char *key, struct slice words)
{
    json_member_open(n, key, '{');
    json_key(n, "text");
    json_text(n, words);
    json_close(n, '}');
}

static void
add_location(struct json_writer *n, const struct finding *f, struct slice uri)
{
    const struct place *p = &f->place;
    json_member_open(n, "locations", '[');
    json_open(n, '{');
    json_member_open(n, "physicalLocation", '{');
    json_member_open(n, "artifactLocation", '{');
    json_member(n, "uri", uri);
    json_close(n, '}');
    if (p->line > 0) {
        json_member_open(n, "region", '{');
        json_member_whole(n, "startLine", p->line);
        if (p->column > 0)
            json_member_whole(n, "startColumn", p->column);
        if (p->column > 0 && p->length > 0)
            json_member_whole(n, "endColumn", (size_t)p->column + p->length);
        json_close(n, '}');
    }
    json_close(n, '}');
    json_close(n, '}');
    json_close(n, ']');
}

static void
add_result(struct json_writer *n, struct arena *a, const struct finding *f, struct slice uri)
{
    struct text words = text_new(a);
    text_add(&words, f->message);
    if (f->mend.length > 0) {
        text_add_string(&words, ". ");
        text_add(&words, f->mend);
    }
    json_open(n, '{');
    json_member_word(n, "ruleId", rules_row(f->rule)->id);
    json_member_whole(n, "ruleIndex", (size_t)f->rule);
    json_member_word(n, "level", finding_level_word(f->level));
    add_message(n, "message", text_slice(&words));
    add_location(n, f, uri);
    if (f->answered) {
        json_member_open(n, "suppressions", '[');
        json_open(n, '{');
        json_member_word(n, "kind", "inSource");
        json_member(n, "justification", f->reason);
        json_close(n, '}');
        json_close(n, ']');
    }
    json_close(n, '}');
}

struct slice
sarif_results(struct arena *a, const struct findings *f)
{
    struct text t = text_new(a);
    struct json_writer n = json_new(&t);
    if (f->count == 0)
        return SLICE("");
    struct slice uri = uri_of(a, slice_of(f->items[0].path));
    for (size_t i = 0; i < f->count; i++) {
        if (i > 0 && f->items[i].path != f->items[i - 1].path)
            uri = uri_of(a, slice_of(f->items[i].path));
        if (i > 0) {
            text_add_bytes(&t, ",\n", 2);
            n.more = false;
        }
        add_result(&n, a, &f->items[i], uri);
    }
    return text_slice(&t);
}

static void
add_rules(struct json_writer *n)
{
    json_member_open(n, "rules", '[');
    for (int r = 0; r < RULES; r++) {
        const struct rule_row *row = rules_row((enum rule)r);
        json_open(n, '{');
        json_member_string(n, "id", row->id);
        add_message(n, "shortDescription", slice_of(row->message));
        add_message(n, "fullDescription", slice_of(row->meaning));
        if (row->mend != NULL)
            add_message(n, "help", slice_of(row->mend));
        json_member_open(n, "defaultConfiguration", '{');
        json_member_string(n, "level", finding_level_word(row->level));
        json_close(n, '}');
        json_member_open(n, "properties", '{');
        json_member_string(n, "source", row->source);
        json_close(n, '}');
        json_close(n, '}');
    }
    json_close(n, ']');
}

bool
sarif_write(struct arena *a, const struct gathering *g, struct outlet out)
{
    struct text t = text_new(a);
    struct json_writer n = json_new(&t);
    json_open(&n, '{');
    json_member(&n, "$schema",
                SLICE("https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/"
                      "sarif-schema-2.1.0.json"));
    json_member_word(&n, "version", "2.1.0");
    json_member_open(&n, "runs", '[');
    json_open(&n, '{');
    json_member_open(&n, "tool", '{');
    json_member_open(&n, "driver", '{');
    json_member_word(&n, "name", "dariole");
    json_member_string(&n, "version", DARIOLE_VERSION);
    add_rules(&n);
    json_close(&n, '}');
    json_close(&n, '}');
    json_member_word(&n, "columnKind", "unicodeCodePoints");
    json_member_open(&n, "results", '[');
    text_add_byte(&t, '\n');
    return gathering_write(
        g, out, &(struct gathered_file){text_slice(&t), RECORD_SARIF, g->count, ",\n", "\n]}]}\n"});
}
