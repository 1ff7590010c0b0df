#!/bin/bash
# Fragments through the programs that make and serve sites, as the README says: a server-side include, and
# two general generators of static sites. What arrives in the page is the fragment, byte for byte.
set -u
cd "$(dirname "$0")/../.." || exit 3
root=$PWD
dariole=$PWD/${DARIOLE:-build/dariole}
work=$(mktemp -d)
server=
trap '[ -z "$server" ] || kill "$server"; rm -rf "$work"' EXIT
export DARIOLE_TABLES=$root/content/tables
n=0
check() { # check STATUS NAME
    n=$((n + 1))
    if [ "$1" -eq 0 ]; then
        echo "ok $n - $2"
    else
        echo "not ok $n - $2"
        tail -n 8 "$work/log" | cut -c 1-300 | sed 's/^/# /'
    fi
}
slugs='roast-carrot-soup picnic-basket'
"$dariole" press -C content -o "$work/out" -q >"$work/log" 2>&1
[ $? -le 1 ]
check $? 'the demo is pressed'

# arrives PAGE SLUG: the page holds the fragment as it was made, and its data where they were asked for
arrives() {
    sed -n '/<article class="dl-recipe/,$p' "$1" | head -n "$(wc -l <"$work/out/fragments/$2.html")" | diff - "$work/out/fragments/$2.html" >"$work/log" 2>&1
}
data_of() { # data_of PAGE: the first JSON-LD script
    sed -n '/<script type="application\/ld+json">/,/<\/script>/p' "$1" | sed 's/<script[^>]*>//; s/<\/script>.*//' | jq -S .
}

# a server-side include
mkdir -p "$work/web"
cp -r "$work/out" "$work/web/recipes"
for slug in $slugs; do
    printf '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>x</title></head><body>\n<!--#include virtual="/recipes/fragments/%s.html" -->\n</body></html>\n' "$slug" >"$work/web/$slug.shtml"
done
port=$((20000 + $$ % 20000))
cat >"$work/lighttpd.conf" <<CONF
server.document-root = "$work/web"
server.port = $port
server.bind = "127.0.0.1"
server.modules = ("mod_ssi")
server.errorlog = "$work/server.log"
ssi.extension = (".shtml")
mimetype.assign = (".html" => "text/html; charset=utf-8", ".shtml" => "text/html; charset=utf-8")
CONF
lighttpd -D -f "$work/lighttpd.conf" >"$work/log" 2>&1 & server=$!
for _ in $(seq 50); do (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null && break; sleep 0.1; done
for slug in $slugs; do
    exec 3<>"/dev/tcp/127.0.0.1/$port"
    printf 'GET /%s.shtml HTTP/1.0\r\nHost: localhost\r\n\r\n' "$slug" >&3
    cat <&3 >"$work/$slug.included"
    exec 3<&-
    arrives "$work/$slug.included" "$slug"
    check $? "a server-side include of $slug"
done

# a generator whose templates read files
mkdir -p "$work/hugo/layouts/_default" "$work/hugo/content"
cp -r "$work/out" "$work/hugo/recipes"
printf 'baseURL = "https://example.org/"\ntitle = "x"\ndisableKinds = ["taxonomy", "term", "RSS", "sitemap"]\n' >"$work/hugo/config.toml"
cat >"$work/hugo/layouts/_default/single.html" <<'PAGE'
<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>{{ .Title }}</title>
<script type="application/ld+json">
{{ readFile (printf "recipes/data/%s.json" .Params.recipe) | safeJS }}
</script></head><body>
{{ readFile (printf "recipes/fragments/%s.html" .Params.recipe) | safeHTML }}
</body></html>
PAGE
cp "$work/hugo/layouts/_default/single.html" "$work/hugo/layouts/_default/list.html"
sed -i '/readFile/d' "$work/hugo/layouts/_default/list.html"
for slug in $slugs; do printf -- '---\ntitle: A dish\nrecipe: %s\n---\n' "$slug" >"$work/hugo/content/$slug.md"; done
(cd "$work/hugo" && hugo --quiet) >"$work/log" 2>&1
check $? 'hugo makes a site of them'
for slug in $slugs; do
    arrives "$work/hugo/public/$slug/index.html" "$slug"
    check $? "hugo: the fragment of $slug"
    data_of "$work/hugo/public/$slug/index.html" | diff - <(jq -S . "$work/out/data/$slug.json") >"$work/log" 2>&1
    check $? "hugo: the data of $slug"
done

# a generator whose templates include templates
mkdir -p "$work/pelican/content" "$work/pelican/theme/templates" "$work/pelican/theme/static"
cp -r "$work/out/fragments" "$work/pelican/theme/templates/fragments"
cp -r "$work/out/data" "$work/pelican/theme/templates/data"
printf "SITENAME = 'x'\nSITEURL = 'https://example.org'\nTIMEZONE = 'UTC'\nPATH = 'content'\nTHEME = 'theme'\nDIRECT_TEMPLATES = []\nFEED_ALL_ATOM = CATEGORY_FEED_ATOM = None\nCATEGORY_SAVE_AS = TAG_SAVE_AS = AUTHOR_SAVE_AS = ''\n" >"$work/pelican/pelicanconf.py"
cat >"$work/pelican/theme/templates/article.html" <<'PAGE'
<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>{{ article.title }}</title>
<script type="application/ld+json">
{% include 'data/' ~ article.recipe ~ '.json' %}
</script></head><body>
{% include 'fragments/' ~ article.recipe ~ '.html' %}

</body></html>
PAGE
for slug in $slugs; do printf 'Title: A dish\nDate: 2026-01-01\nSlug: %s\nRecipe: %s\n\nWords.\n' "$slug" "$slug" >"$work/pelican/content/$slug.md"; done
(cd "$work/pelican" && pelican -q -s pelicanconf.py -o public) >"$work/log" 2>&1
check $? 'pelican makes a site of them'
for slug in $slugs; do
    arrives "$work/pelican/public/$slug.html" "$slug"
    check $? "pelican: the fragment of $slug"
    data_of "$work/pelican/public/$slug.html" | diff - <(jq -S . "$work/out/data/$slug.json") >"$work/log" 2>&1
    check $? "pelican: the data of $slug"
done
echo "1..$n"
