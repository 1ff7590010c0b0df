#!/bin/bash
# What a change of tables does to every post: told before it is made, and true once it is made.
set -u
. "$(dirname "$0")/lib/setting.sh"
make_content "$work/content" 120
all=$(find "$work/content" -name '*.md' | wc -l)
impact() { "$dariole" impact -C "$work/content" "$@" >"$work/told" 2>"$work/log"; }
limit() { printf 'phases:\n  strict:\n    groups:\n      %s: {grams: %s, source: "a test", basis: practice}\n' "$1" "$2" >"$3/limits.yaml"; }

impact --try 'lactose 0.95 g'
check $? 'a limit that no post passes: exit 0'
grep -q '^content/more/post-000037.md$' "$work/told"
check $? 'the post with milk is named'
grep -q '    strict: still over, lactose [0-9.]* -> [0-9.]* of its limit' "$work/told" || grep -q '    strict: .*over.*lactose' "$work/told"
check $? 'its share before and after'
grep -q '    because of: limit:strict/lactose, limit:wider/lactose$' "$work/told"
check $? 'and the entry that did it'
tail -n 1 "$work/told" | grep -q "^[0-9]* of $all posts would change, [0-9]* would not"
check $? 'posts are counted'

mkdir "$work/other"
limit sorbitol 0.001 "$work/other"
impact --against "$work/other"
[ $? -eq 1 ]
check $? 'posts that would come to stand over: exit 1'
first=$(sed -n '/^    strict: /{p;q}' "$work/told")
case $first in *'-> over'*) check 0 'the worst first' ;; *) check 1 'the worst first' ;; esac
impact --against "$work/other" --json
[ $? -eq 1 ] && node -e '
const d = JSON.parse(require("fs").readFileSync(process.argv[1], "utf8")), all = Number(process.argv[2]);
const over = d.changes.filter((c) => c.published && c.phases.some((p) => p.phase === "strict" && p.standing.after === "over" && p.standing.before !== "over"));
if (d.over < 1 || d.over !== over.length || d.posts !== all || d.unchanged + d.changes.length !== all) process.exit(1);
if (!d.changes.every((c) => c.entries.includes("limit:strict/sorbitol"))) process.exit(1);
' "$work/told" "$all"
check $? 'as JSON the same'
cp "$work/told" "$work/impact.json"

# what impact says is what press does
press "$work/out" "$work/content"
cp "$work/out/catalogue.json" "$work/before.json"
mkdir -p "$work/content/tables"
cp "$work/other/limits.yaml" "$work/content/tables/"
press "$work/out" "$work/content"
node -e '
const read = (f) => new Map(JSON.parse(require("fs").readFileSync(f, "utf8")).map((r) => [r.slug, r]));
const [b, a] = [read(process.argv[1]), read(process.argv[2])];
const said = new Map(JSON.parse(require("fs").readFileSync(process.argv[3], "utf8")).changes.map((c) => [c.slug, c]));
for (const [slug, r] of a) {
  const [was, is] = [b.get(slug).phases.strict.standing, r.phases.strict.standing];
  const phase = said.get(slug)?.phases.find((p) => p.phase === "strict");
  const [saidWas, saidIs] = phase ? [phase.standing.before, phase.standing.after] : [was, was];
  if (was !== saidWas || is !== saidIs) { console.error(slug, was, is, saidWas, saidIs); process.exit(1); }
}' "$work/before.json" "$work/out/catalogue.json" "$work/impact.json" 2>"$work/log"
check $? 'standings that impact tells are those that a press then gives'

impact --try 'milk lactose 0 g'
grep -q 'because of: .*food:milk/lactose' "$work/told"
check $? 'a content that is tried'
impact --try 'wider/fructan 0.01 g' --try 'sitting 0.05 g'
grep -q 'limit:wider/fructan' "$work/told" && grep -q 'limit:strict/sitting' "$work/told"
check $? 'two figures tried, one of another phase'
for wrong in 'lactose' 'lactose much' 'nothing 1 g' 'nofood lactose 1 g' 'nowhere/lactose 1 g' '1 g'; do
    impact --try "$wrong"
    [ $? -eq 2 ] && [ -s "$work/log" ]
    check $? "'$wrong' cannot be tried: exit 2"
done
impact --against "$work/nowhere"
[ $? -eq 2 ]
check $? 'no such folder: exit 2'

# tables of a revision
git -C "$work" init -q . && git -C "$work" add content && git -C "$work" -c user.name=t -c user.email=t@example.org commit -q -m tables
limit sorbitol 0.2 "$work/content/tables"
impact --against git:HEAD
[ $? -eq 1 ] && grep -q 'limit:strict/sorbitol' "$work/told"
check $? 'tables of a revision in git'
impact --against git:nowhere
[ $? -eq 2 ] && grep -q "git has no revision 'nowhere'" "$work/log"
check $? 'no such revision: exit 2'
find "${TMPDIR:-/tmp}" -maxdepth 1 -name 'dariole-??????' -newer "$work/told" | grep -q .
check $(($? == 0)) 'no temporary folder is left'
git -C "$work" status --porcelain | grep -v tables/limits.yaml | grep -q content/
check $(($? == 0)) 'the content is as it was'

# a revision is whole
printf 'foods:\n  unheard-of:\n    name: carrot\n    class: vegetable\n    forms: {whole: {}}\n' >"$work/content/tables/foods/own.yaml"
impact --against git:HEAD --json
grep -q '"food:unheard-of' "$work/told" || grep -q '"find:[^"]*carrot' "$work/told"
check $? 'a table that was added since then does not hold in it'
rm "$work/content/tables/foods/own.yaml"
mv "$work/content/tables" "$work/own"
git -C "$work" -c user.name=t -c user.email=t@example.org commit -q -a -m untabled
mv "$work/own" "$work/content/tables"
impact --against git:HEAD --json
cp "$work/told" "$work/git"
mkdir -p "$work/bare" && cp -r "$work/content/posts" "$work/content/more" "$work/bare/"
press "$work/clean" "$work/bare"
press "$work/with" "$work/content"
# shellcheck disable=SC2016
node -e '
const fs = require("fs"), [told, was, is] = process.argv.slice(1);
const d = JSON.parse(fs.readFileSync(told, "utf8"));
const read = (f) => new Map(JSON.parse(fs.readFileSync(`${f}/catalogue.json`, "utf8")).map((r) => [r.slug, r.phases.strict.standing]));
const [now, then] = [read(is), read(was)];
if (d.changes.length === 0) process.exit(1);
for (const c of d.changes) for (const p of c.phases) if (p.phase === "strict" && (p.standing.before !== now.get(c.slug) || p.standing.after !== then.get(c.slug))) process.exit(1);
' "$work/git" "$work/clean" "$work/with"
check $? 'a revision without tables: the default ones held'

# unchanged is a post of which no output would change, and no other
cp -r content/tables "$work/slight"
slight() { # slight NAME SED-SCRIPT: a change of the default tables
    rm -rf "$work/slight"
    cp -r content/tables "$work/slight"
    sed -i "$2" "$work/slight/foods/vegetables.yaml" "$work/slight/limits.yaml"
    press "$work/now" "$work/bare"
    DARIOLE_TABLES=$work/slight press "$work/then" "$work/bare"
    "$dariole" impact -C "$work/bare" --against "$work/slight" --json >"$work/told" 2>"$work/log"
    "$dariole" impact -C "$work/bare" --against "$work/slight" >"$work/words" 2>"$work/log"
    # shellcheck disable=SC2016
    node -e '
const fs = require("fs"), [told, was, is] = process.argv.slice(1);
const d = JSON.parse(fs.readFileSync(told, "utf8")), bytes = (...p) => fs.readFileSync(p.join("/"), "utf8");
const lines = (f) => new Map(bytes(f, "catalogue.json").split("\n").filter((l) => l.startsWith("{")).map((l) => [JSON.parse(l.replace(/,$/, "")).slug, l.replace(/,$/, "")]));
const results = (f) => { const all = new Map(); for (const r of JSON.parse(bytes(f, "findings.sarif")).runs[0].results) { const at = r.locations[0].physicalLocation.artifactLocation.uri; all.set(at, (all.get(at) ?? "") + JSON.stringify(r.message) + JSON.stringify(r.locations)); } return all; };
const said = new Map(d.changes.map((c) => [c.slug, c])), [a, b] = [lines(was), lines(is)], [ra, rb] = [results(was), results(is)];
let differ = 0;
for (const slug of a.keys()) {
  const own = (f) => bytes(f, "fragments", `${slug}.html`).replace(/<p class="dl-beside">.*\n/, ""); // that line is of other posts
  const page = own(was) !== own(is);
  const data = bytes(was, "data", `${slug}.json`) !== bytes(is, "data", `${slug}.json`);
  const c = said.get(slug), any = page || data || a.get(slug) !== b.get(slug) || [...ra.keys(), ...rb.keys()].some((f) => f.endsWith(`/${slug}.md`) && ra.get(f) !== rb.get(f));
  // no output shows how high a share may come in another phase than that of the site
  if ((any && !c) || (c && !any && c.phases.every((p) => p.phase === "strict")) || (c && (c.page !== page || c.data !== data))) { console.error(slug, page, data, any, JSON.stringify(c).slice(0, 600)); process.exit(1); }
  differ += any;
}
console.error(differ, "differ");
if (differ === 0 || differ === a.size) process.exit(1);
' "$work/told" "$work/now" "$work/then" 2>"$work/log"
    check $? "$1: unchanged are the posts of which no output changes"
}
slight 'a limit that moves a third decimal' 's/^\( *\)grams: 1\.0$/\1grams: 1.003/'
slight 'a figure' 's/\(mid: \)0\.2\b/\10.21/'
slight 'the words of a source' '/^  spinach:/,/^  [a-z-]*:$/s/source: "/source: "see /'
grep -q '^only in a source, a weight or a third decimal: bare/' "$work/words" && [ "$(grep -c '^only in' "$work/words")" -eq 1 ]
check $? 'what no reader goes by is one line'
echo "1..$n"
