#include "compile/compile.h"

#include "compile/linked.h"
#include "compile/recipe.h"
#include "compile/together.h"
#include "read/post_dishes.h"

void
compile_post(struct arena *a, const struct compile_sources *sources, const struct post_bytes *post,
             struct reads *reads, struct outcome *out)
{
    const struct tables *t = sources->tables;
    struct notices notices = {.arena = a};
    *out = outcome_new(a, t, reads);
    reads_note(reads, &t->site.entry);
    reads_note(reads, &t->words->entry);
    post_read(a, t->words, post, &notices, &out->post);
    if (out->post.readable) {
        if (outcome_round_up(out))
            round_up_compile(a, t, sources->posts, &notices, out);
        else
            recipe_compile(a, t, &notices, out);
        together_judge(a, t, sources->posts, &notices, out);
        linked_judge(a, sources->posts, &notices, out);
        recommended_judge(&out->post, &notices);
        round_up_clips(a, &notices, out);
        picture_judge(&out->post, sources->pictures, &notices, &out->picture);
    }
    out->publishable = out->post.readable && !out->post.front.draft &&
                       (!outcome_round_up(out) || round_up_count(out) > 0);
    findings_make(a, post->path, &notices, &out->findings);
    findings_answer(a, post->path, out->post.front.answers, out->post.front.answer_count,
                    &out->findings);
}
