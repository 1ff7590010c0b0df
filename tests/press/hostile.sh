#!/bin/bash
# What others may have laid in OUT and in the content folder: names in OUT/.dariole that lead out of OUT,
# links, pipes, files of any size, pictures that are something else. Nothing outside OUT is changed or
# removed, nothing outside the content folder is published, and nothing hangs.
# names in the folders are the test's own
# shellcheck disable=SC2010,SC2012
set -u
. "$(dirname "$0")/lib/setting.sh"
make_content "$work/content" 4
cp -r content/images "$work/content/images"
press "$work/clean" "$work/content"
check $? 'the content compiles'
[ -x "$work/forge" ] || cc -O1 -o "$work/forge" tests/press/lib/forge.c -lxxhash

# victims: files that no press may touch; whole: whether they are as they were
victims() {
    local name
    rm -rf "$work/victim"
    mkdir -p "$work/victim/data"
    for name in x.html x.json x.a.html x.png data/x.json; do echo 'of somebody else' >"$work/victim/$name"; done
}
whole() {
    [ "$(find "$work/victim" -type f | wc -l)" -eq 5 ] && ! grep -L '^of somebody else$' "$work"/victim/*.* "$work"/victim/data/* | grep -q .
}
# in_time NAME COMMAND...: the command ends within 20 seconds
in_time() {
    timeout -k 1 20 "$@" >"$work/log" 2>&1
    [ $? -ne 124 ]
}
begin() {
    rm -rf "$work/out"
    cp -r --preserve=timestamps "$work/clean" "$work/out"
    victims
}

# a manifest whose lines are sealed as a press seals them, with names that lead out
bad=0
for slug in "../../victim/x" "$work/victim/x" '..' '.' 'a/../../../victim/x' 'X' ''; do
    for pattern in 'data/*.json' 'data/*' 'data/../../victim/*.json' '../victim/*.html' 'fragments/*.a.html' \
        'fragments/*.a/../../../victim/x.html' 'images/*.png' '*' '/*' 'fragments/../../victim/x.a.html*'; do
        begin
        "$work/forge" manifest "$work/out/.dariole/manifest" "$slug" "$pattern" || bad=$((bad + 1))
        rm -f "$work/out/.dariole/ledger"
        press "$work/out" "$work/content" && same "$work/out" "$work/clean" && whole || bad=$((bad + 1))
    done
done
for pattern in 'data/../../victim/*.json' 'data/*.json/../../../victim/x.json' 'fragments/*.a/../../../victim/x.html'; do
    begin
    "$work/forge" manifest "$work/out/.dariole/manifest" x "$pattern"
    rm -f "$work/out/.dariole/ledger"
    press "$work/out" "$work/content" && same "$work/out" "$work/clean" && whole || bad=$((bad + 1))
done
check "$bad" 'a forged manifest removes nothing outside OUT'

# a ledger whose texts were changed, its digest with them
bad=0
for change in 'data/*.json|data/../../victim/*.json' 'fragments/*.html|../victim/*.html' 'data/*.json|data/*' \
    'quinoa-porridge|../../victim/x' "nettle-soup|$work/victim/x" 'preview/*.html|preview/*/../../victim/x.html'; do
    begin
    "$work/forge" ledger "$work/out/.dariole/ledger" "${change%%|*}" "${change#*|}" || bad=$((bad + 1))
    press "$work/out" "$work/content" && same "$work/out" "$work/clean" && whole || bad=$((bad + 1))
    begin
    "$work/forge" ledger "$work/out/.dariole/ledger" "${change%%|*}" "${change#*|}" || bad=$((bad + 1))
    rm "$work/out/.dariole/manifest"
    rm -rf "$work/less" && cp -r "$work/content" "$work/less" && rm "$work/less/posts/nettle-soup.md" "$work/less/posts/quinoa-porridge.md"
    press "$work/out" "$work/less" && whole || bad=$((bad + 1))
done
check "$bad" 'a forged ledger removes nothing outside OUT'

# links in OUT
bad=0
for name in fragments data preview images .dariole; do
    begin
    rm -r "$work/out/$name" && ln -s "$work/victim" "$work/out/$name"
    "$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
    [ $? -eq 3 ] && grep -q "/$name is a link" "$work/log" && whole || bad=$((bad + 1))
done
check "$bad" 'a folder of OUT that is a link is told and not written into'
bad=0
for name in ledger manifest journal lock pieces-1 pieces-2; do
    for target in "$work/victim/x.html" "$work/nowhere"; do
        begin
        ln -sf "$target" "$work/out/.dariole/$name"
        press "$work/out" "$work/content"
        whole && [ ! -e "$work/nowhere" ] || bad=$((bad + 1))
        [ "$name" = lock ] || { press "$work/out" "$work/content" && same "$work/out" "$work/clean"; } || bad=$((bad + 1))
    done
done
check "$bad" 'a file of OUT/.dariole that is a link: what it leads to stays'
begin
for file in feed.xml dariole.css fragments/nettle-soup.html data/nettle-soup.json; do ln -sf "$work/victim/x.html" "$work/out/$file"; done
press "$work/out" "$work/content" && same "$work/out" "$work/clean" && whole
check $? 'an output that is a link gives way, and what it leads to stays'

# pipes and files of any size
bad=0
for name in ledger manifest journal lock pieces-1 pieces-2; do
    begin
    rm -f "$work/out/.dariole/$name" && mkfifo "$work/out/.dariole/$name"
    in_time "$dariole" press -C "$work/content" -o "$work/out" -q || bad=$((bad + 1))
    [ "$name" = lock ] || { press "$work/out" "$work/content" && same "$work/out" "$work/clean"; } || bad=$((bad + 1))
    begin
    truncate -s 10G "$work/out/.dariole/$name"
    in_time "$dariole" press -C "$work/content" -o "$work/out" -q || bad=$((bad + 1))
    press "$work/out" "$work/content" && same "$work/out" "$work/clean" || bad=$((bad + 1))
done
check "$bad" 'a pipe or 10 GB in the place of a file of OUT/.dariole'
begin
rm "$work/out/data/nettle-soup.json" "$work/out/feed.xml" && mkfifo "$work/out/data/nettle-soup.json" "$work/out/feed.xml"
truncate -s 10G "$work/out/fragments/nettle-soup.html"
in_time "$dariole" press -C "$work/content" -o "$work/out" -q && same "$work/out" "$work/clean"
check $? 'pipes and 10 GB in the place of outputs'
rm -rf "$work/big" && cp -r "$work/content" "$work/big"
mkfifo "$work/big/posts/pipe.md"
cp "$work/big/posts/nettle-soup.md" "$work/big/posts/big.md" && truncate -s 10G "$work/big/posts/big.md"
in_time "$dariole" press -C "$work/big" -o "$work/bigout" -q && in_time "$dariole" press -C "$work/big" -o "$work/bigout" -q
check $? 'posts that are pipes or 10 GB large'

# post NAME FILE: a post with this picture
post() {
    mkdir -p "$work/own/posts"
    sed "s|^title: .*|title: A bowl\nimage: {file: $2, alt: A bowl.}|; /^image:/{/A bowl/!d}; /^slug:/d" content/posts/quinoa-porridge.md >"$work/own/posts/$1.md"
}
png='\x89PNG\r\n\x1a\nrest'
secret='of somebody else'
rm -rf "$work/own" && mkdir -p "$work/own/images" "$work/secrets"
echo "$secret" >"$work/secrets/x.png"
printf "%b" "$png$secret" >"$work/secrets/y.png"
printf "%b" "$png" >"$work/own/images/good.png"
ln -s "$work/secrets/x.png" "$work/own/images/link.png"
ln -s ../../secrets/y.png "$work/own/images/up.png"
ln -s "$work/secrets" "$work/own/images/away"
ln -s good.png "$work/own/images/same.png"
mkfifo "$work/own/images/pipe.png"
mkdir "$work/own/images/folder.png"
printf "%b" "$png" >"$work/own/images/sparse.png" && truncate -s 10G "$work/own/images/sparse.png"
i=0
for file in link.png up.png away/y.png pipe.png folder.png sparse.png; do i=$((i + 1)) && post "bad-$i" "images/$file"; done
post good images/good.png
post same images/same.png
in_time "$dariole" press -C "$work/own" -o "$work/ownout" -q && in_time "$dariole" press -C "$work/own" -o "$work/ownout" -q
check $? 'pictures of any kind and size do not hang'
[ "$(ls "$work/ownout/images" | tr '\n' ' ')" = 'good.png same.png ' ] && ! grep -rq "$secret" "$work/ownout"
check $? 'a picture comes from the content folder alone, and is a plain file'
"$dariole" press -C "$work/own" -o "$work/ownout" >"$work/log" 2>&1
[ "$(grep -c 'leads out of the content folder \[image-file\]' "$work/log")" -eq 3 ] && [ "$(grep -c '\[image-file\]' "$work/log")" -eq 6 ]
check $? 'each is a finding'
"$dariole" press -C "$work/own" -o "$work/ownout" 2>&1 >/dev/null | grep '\[image-file\]' | sed 's|^own|X|' | sort >"$work/press.txt"
"$dariole" proof -C "$work/own" 2>/dev/null | grep '\[image-file\]' | sed "s|^$work/own|X|" | sort >"$work/proof.txt"
cmp "$work/press.txt" "$work/proof.txt" >"$work/log" 2>&1
check $? 'proof says the same as press'
rm "$work/own/images/link.png" && cp "$work/own/images/good.png" "$work/own/images/link.png"
press "$work/ownout" "$work/own" && [ -f "$work/ownout/images/bad-1.png" ]
check $? 'once the link is a file, it is published'

# what bytes and ending say
rm -rf "$work/own" "$work/ownout" && mkdir -p "$work/own/images"
svg='<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 9 9">'
i=0
refused() { i=$((i + 1)) && printf '%b' "$2" >"$work/own/images/r$i.$1" && post "refused-$i" "images/r$i.$1"; }
taken() { i=$((i + 1)) && printf '%b' "$2" >"$work/own/images/t$i.$1" && post "taken-$i" "images/t$i.$1"; }
refused png '<html><script>1</script>'
refused jpg "$png"
refused webp 'RIFF1234WAVE'
refused svg "$png"
refused svg '<html><svg></svg></html>'
refused svg "$svg<script>1</script></svg>"
refused svg "$svg<svg:script>1</svg:script></svg>"
refused svg "$svg<g\nONLOAD = '1'/></svg>"
refused svg "$svg<g a='>' onclick=\"1\"/></svg>"
refused svg "$svg<a xlink:href=\"javascript:1\"><path/></a></svg>"
refused svg "$svg<a href=' java&#115;cript:1'><path/></a></svg>"
refused svg "$svg<a href='data:text/html,x'><path/></a></svg>"
refused svg "$svg<foreignObject><b/></foreignObject></svg>"
refused svg "$svg<set attributeName='onload' to='1'/></svg>"
refused svg "$svg<animate attributeName='xlink:href' values='javascript:1'/></svg>"
refused svg "<!DOCTYPE svg [<!ENTITY a '<script>1</script>'>]>$svg&a;</svg>"
refused svg "<?xml-stylesheet href='a.xsl' type='text/xsl'?>$svg</svg>"
refused svg "<?xml version='1.0' encoding='UTF-7'?>$svg</svg>"
refused svg "$svg\x00</svg>"
taken png "$png"
taken gif 'GIF89a....'
taken jpeg '\xff\xd8\xff\xe0'
taken webp 'RIFF1234WEBPVP8 '
taken avif '\x00\x00\x00\x20ftypavif'
taken svg "<?xml version='1.0' encoding='UTF-8'?>\n<!DOCTYPE svg PUBLIC 'a' 'b'>\n<!-- <script> -->$svg<path d='M0 0'/><use href='#a'/><a href='https://a.example/?a=1&amp;b=2'><text>on and on</text></a><style>a{b:url(#c)}</style></svg>"
taken svg "$svg<image href='data:image/png;base64,AA=='/><g class='onion' data-note='onload'/></svg>"
press "$work/ownout" "$work/own"
ls "$work/ownout/images" | grep -o '^[a-z]*-[0-9]*' | sort >"$work/log"
[ "$(grep -c taken "$work/log")" -eq 7 ] && [ "$(grep -c refused "$work/log")" -eq 0 ]
check $? 'a picture is what its ending says, and a drawing only that'
mkdir -p "$work/demo/posts" && cp -r content/posts content/images "$work/demo/" && press "$work/demoout" "$work/demo"
[ "$(ls "$work/demoout/images" | wc -l)" -eq "$(grep -l '^image: {file: images' content/posts/*.md | wc -l)" ]
check $? "the demo's pictures are taken"

# a post that is a link
mkdir -p "$work/linked/posts" "$work/linked/drafts"
printf 'password: hunter2\n' >"$work/secrets/secret.md"
cp content/posts/quinoa-porridge.md "$work/linked/drafts/one.txt"
ln -s ../drafts/one.txt "$work/linked/posts/inside.md"
ln -s "$work/secrets/secret.md" "$work/linked/posts/outside.md"
"$dariole" press -C "$work/linked" -o "$work/linkedout" >"$work/log" 2>&1
[ $? -eq 3 ] && grep -q 'outside.md is a link that leads out of the content folder' "$work/log" && ! grep -rq hunter2 "$work/log" "$work/linkedout" && [ -f "$work/linkedout/fragments/inside.html" ]
check $? 'a post that is a link is read in the content folder, not out of it'
"$dariole" proof -C "$work/linked" >"$work/log" 2>&1
[ $? -eq 3 ] && ! grep -q hunter2 "$work/log"
check $? 'nor is it by proof'
# a first press into a folder with somebody's own files
own() {
    rm -rf "$work/out" && mkdir -p "$work/out/data" "$work/out/fragments" "$work/out/preview" "$work/out/images"
    for file in "$@"; do echo 'of somebody else' >"$work/out/$file"; done
}
for files in feed.xml sitemap.xml dariole.css data/nettle-soup.json fragments/nettle-soup.html preview/index.html 'feed.json fragments/quinoa-porridge.html'; do
    # shellcheck disable=SC2086
    own $files
    "$dariole" press -C "$work/content" -o "$work/out" >"$work/log" 2>&1
    status=$?
    for file in $files; do grep -qF "$file" "$work/log" && grep -q 'of somebody else' "$work/out/$file" || status=9; done
    [ "$status" -eq 2 ] && [ "$(grep -c . "$work/log")" -eq 1 ] && [ "$(find "$work/out" -type f | wc -l)" -eq "$(wc -w <<<"$files")" ] && [ ! -e "$work/out/.dariole" ] && [ ! -e "$work/out/clips" ] && [ -d "$work/out/images" ]
    check $? "$files of somebody else: refused, named, nothing written or made"
done
press "$work/out" "$work/content" --take-over && same "$work/out" "$work/clean"
check $? '--take-over writes over them'
own feed.atom fragments/own.html data/own.json images/own.svg fragments/nettle-soup.txt
press "$work/out" "$work/content" && [ "$(grep -rl 'of somebody else' "$work/out" | wc -l)" -eq 5 ]
check $? 'files that no press writes are in nobody'"'"'s way, and stay'
begin
rm -r "$work/out/.dariole"
press "$work/out" "$work/content" && same "$work/out" "$work/clean"
check $? 'where OUT/.dariole alone was taken away, the outputs are known as ours'
begin
rm -r "$work/out/.dariole" && echo 'of somebody else' >"$work/out/data/nettle-soup.json"
"$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
[ $? -eq 2 ] && grep -q ': data/nettle-soup.json\. ' "$work/log"
check $? 'but for those that are not'
mkdir -p "$work/large/tables/foods"
truncate -s 10G "$work/large/tables/foods/own.yaml"
"$dariole" press -C "$work/large" -o "$work/largeout" >"$work/log" 2>&1
[ $? -eq 3 ] && grep -q 'own.yaml cannot be read: File too large$' "$work/log"
check $? 'a table of ten gigabytes is told, not read'
if command -v strace >/dev/null 2>&1; then # a kernel without openat2
    mkdir -p "$work/plain/posts" "$work/plain/images"
    cp "$work/secrets/y.png" "$work/plain/images/here.png" && ln -s "$work/secrets/y.png" "$work/plain/images/away.png"
    for name in here away; do sed "s|^title: .*|title: A bowl\nimage: {file: images/$name.png, alt: A bowl.}|; /^image:/{/A bowl/!d}" content/posts/quinoa-porridge.md >"$work/plain/posts/$name.md"; done
    strace -f -qq -o "$work/trace" -e trace=openat2 -e inject=openat2:error=ENOSYS "$dariole" press -C "$work/plain" -o "$work/plainout" >"$work/log" 2>&1
    grep -q 'ENOSYS' "$work/trace" && [ "$(ls "$work/plainout/images")" = here.png ] && grep -q 'away.png.*leads out' "$work/log"
    check $? 'where the kernel cannot hold a path to a folder, it is followed name by name'
fi
echo "1..$n"
