#!/usr/bin/env bash
# Builds Bellows, and first installs what is missing for that.
#
#   ./build.sh         dist/bellows.html, one file that opens from disk, and dist/site/, for any static host
#   ./build.sh test    the gate: formatting, lints, types, docs, native tests, the build, the browser tests in Chromium
#   ./build.sh test --all-engines    the same, then the browser tests in Firefox and WebKitGTK
#   ./build.sh main-path             of what is built, only the main path in Firefox and WebKitGTK
#
# CORE_TOOLCHAIN=debian builds the core with the distribution's compiler even where rustup has the target.
# No step hangs on another by "and", nor in an "if": bash would switch -e off inside it.
set -euo pipefail
cd "$(dirname "$0")"

# Speed against bytes is decided here and by opt-level under [profile.release] in Cargo.toml.
WASM_OPT_LEVEL=-Oz
# Gzip repeats what it saw within 32 kB: functions that have one caller stay by themselves, and like names stand side by
# side. The core grows by 2 % and what is downloaded shrinks by a tenth.
WASM_OPT_GZIP="--low-memory-unused --one-caller-inline-max-function-size 0 --reorder-functions-by-name"
# What the compiler emits for wasm32 today; wasm-opt refuses what it was not told of.
WASM_FEATURES="--enable-bulk-memory --enable-multivalue --enable-mutable-globals
  --enable-nontrapping-float-to-int --enable-reference-types --enable-sign-ext"
BINARYEN=132.0.0
ESBUILD=0.28.2
RESVG=2.6.2
GECKODRIVER=0.37.1
ESLINT=9.39.5
TYPESCRIPT=7.0.2
# What a phone may download at its first visit, gzipped.
FIRST_VISIT_MAX=473000

TARGET=wasm32-unknown-unknown
WORK=${CARGO_TARGET_DIR:-target}
TOOLS=.tools
NPM=$TOOLS/node_modules
WARNINGS=warn # the gate denies them
TOOLCHAIN=${CORE_TOOLCHAIN:-rustup}

say() { printf '\n== %s\n' "$*"; }
die() { echo "build.sh: $*" >&2; exit 1; }

# ---- what has to be there ----

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

apt_install() {
  [ -n "$(command -v apt-get)" ] || die "please install: $*"
  as_root apt-get update
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"
}

# need COMMAND PACKAGE... installs the packages where the command is missing.
need() {
  local command=$1
  shift
  [ -n "$(command -v "$command")" ] || apt_install "$@"
}

rust() {
  need cc gcc libc6-dev
  need cargo cargo-web rustc-web
}

# npm_tool NAME VERSION puts one package into .tools unless that version is there.
npm_tool() {
  grep -qs "\"version\": \"$2\"" "$NPM/$1/package.json" || npm install --prefix "$TOOLS" --no-fund --no-audit "$1@$2"
}

locked_version() {
  awk -v name="\"$1\"" '$1 == "name" { found = $3 == name } found && $1 == "version" { gsub("\"", "", $3); print $3; exit }' Cargo.lock
}

has_target() { [ -d "$(rustc --print target-libdir --target "$TARGET")" ]; }

tools() {
  local bindgen
  say "tools"
  rust
  if [ "$TOOLCHAIN" != debian ] && ! has_target; then
    rustup target add "$TARGET" || TOOLCHAIN=debian
  fi
  bindgen=$(locked_version wasm-bindgen)
  if [ "$("$TOOLS/bin/wasm-bindgen" --version 2>/dev/null)" != "wasm-bindgen $bindgen" ]; then
    # Its own lock first; a mirror of the registry may not have all of that yet.
    cargo install wasm-bindgen-cli --version "$bindgen" --locked --force --root "$TOOLS" ||
      cargo install wasm-bindgen-cli --version "$bindgen" --force --root "$TOOLS"
  fi
  need node nodejs
  need npm npm
  npm_tool esbuild "$ESBUILD"
  npm_tool @resvg/resvg-wasm "$RESVG"
  npm_tool binaryen "$BINARYEN" || echo "build.sh: no wasm-opt: the core will be larger than need be" >&2
}

# ---- the core: Rust to WebAssembly ----

# Debian's compiler, which can build the standard library for wasm32 from the source package.
debian_core() {
  local rustc cargo linker
  [ -n "$(command -v dpkg)" ] || die "this Rust has no $TARGET target, and there is no dpkg to get one that can build it"
  dpkg -s rustc-web cargo-web rust-web-src >/dev/null 2>&1 || apt_install rustc-web cargo-web rust-web-src
  rustc=$(dpkg -L rustc-web | grep '/usr/bin/rustc$')
  cargo=$(dpkg -L cargo-web | grep '/usr/bin/cargo$')
  linker=$(wasm_linker)
  if [ -z "$linker" ]; then
    # rust-lld is a link to the lld of the compiler's own LLVM, which is a package by the same name.
    apt_install "$(readlink "$(dpkg -L rust-web-llvm | grep '/rust-lld$')")"
    linker=$(wasm_linker)
  fi
  env RUSTC="$rustc" RUSTC_BOOTSTRAP=1 CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER="$linker" \
    "$cargo" build --locked --lib --release --target "$TARGET" -Zbuild-std=std,panic_abort \
    -Zwarnings --config "build.warnings='$WARNINGS'"
}

# The first linker for WebAssembly that can be run: on the path, or carried by a rustup toolchain.
wasm_linker() {
  local linker
  for linker in "$(command -v rust-lld)" "$(command -v wasm-ld)" "$(rustc --print sysroot)"/lib/rustlib/*/bin/rust-lld; do
    if [ -x "$linker" ]; then
      echo "$linker"
      return
    fi
  done
}

core() {
  local wasm=$WORK/$TARGET/release/bellows.wasm
  say "core"
  if [ "$TOOLCHAIN" = debian ]; then
    debian_core
  else
    cargo build --locked --lib --release --target "$TARGET"
  fi
  mkdir -p "$WORK/core"
  if ! cmp -s "$wasm" "$WORK/core/made-from" || [ build.sh -nt "$WORK/core/made-from" ]; then
    "$TOOLS/bin/wasm-bindgen" --target web --out-name core --out-dir "$WORK/core" "$wasm"
    optimise "$WORK/core/core_bg.wasm"
    cp "$wasm" "$WORK/core/made-from"
  fi
}

optimise() {
  [ -x "$NPM/.bin/wasm-opt" ] || return 0
  # shellcheck disable=SC2086 # features and passes are lists
  "$NPM/.bin/wasm-opt" "$WASM_OPT_LEVEL" $WASM_OPT_GZIP $WASM_FEATURES --strip-debug --strip-producers -o "$1.opt" "$1"
  mv "$1.opt" "$1"
}

# ---- the page: the same sources as a site and as one file ----

# policy SCRIPT STYLE REST...: the Content-Security-Policy; all that is not named is forbidden.
policy() {
  printf "default-src 'none'; script-src %s 'wasm-unsafe-eval'; style-src %s; img-src 'self' data:; " "$1" "$2"
  shift 2
  printf '%s; ' "$@"
  printf "base-uri 'none'; form-action 'none'"
}

# The hash by which a policy lets one inline script or style pass.
inline_hash() {
  local hex
  hex=$(sha256sum "$1" | cut -c1-64)
  # shellcheck disable=SC2059 # the format is the bytes
  printf "'sha256-%s'" "$(printf "$(sed 's/../\\x&/g' <<<"$hex")" | base64 -w0)"
}

# What the core says of a blank label, written into the page, so that the answer stands before any script has run.
blank_answer() {
  node --input-type=module - "$WORK/core" "$WORK/page/index.html" <<'END'
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
const [folder, page] = process.argv.slice(2);
const script = `data:text/javascript,${encodeURIComponent(readFileSync(`${folder}/core.js`, "utf8"))}`;
const { initSync, Session } = await import(script);
initSync({ module: readFileSync(`${folder}/core_bg.wasm`) });
const { answer, assumed } = new Session().answer(0, -1);
const safe = (text) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
const words = { SENTENCE: answer.sentence, ODDS: answer.odds, NEXT: answer.next };
let html = readFileSync("www/index.html", "utf8");
for (const [mark, text] of Object.entries(words)) {
  if (!html.includes(`>${mark}<`)) throw new Error(`www/index.html has no ${mark}`);
  html = html.replace(`>${mark}<`, () => `>${safe(text)}<`);
}
if (!html.includes(assumed)) throw new Error(`www/index.html does not say “${assumed}”`);
writeFileSync(page, html.replace(/(<b id="verdict">)[^<]*/, (_, open) => open + safe(answer.verdict)));
END
}

# The hash of some files together.
hash_of() { cat "$@" | sha256sum | cut -c1-16; }

site() {
  local out=dist/site stage=$WORK/page csp build
  csp=$(policy "'self'" "'self'" "connect-src 'self'" "worker-src 'self'" "manifest-src 'self'")
  mkdir -p "$out"
  cp -r www/icons www/manifest.webmanifest "$out"
  icons "$out/icons"
  cp "$WORK/core/core_bg.wasm" "$out"
  bundle "$stage/main.js" esm "$out/main.js"
  cp "$stage/worker.txt" "$out/worker.js"
  cp "$stage/style" "$out/style.css"
  # Each of these is asked for with its build in the address: two builds never mix, and nothing is downloaded twice.
  build=$(hash_of "$out"/*.js "$out"/*.css "$out"/*.wasm)
  sed -e "s|POLICY|$csp|" -e "s|href=\"style.css\"|href=\"style.css?$build\"|" -e "s|src=\"main.js\"|src=\"main.js?$build\"|" \
    -e "s|<!-- preload -->|<meta name=\"worker\" content=\"worker.js?$build\"><link rel=\"modulepreload\" href=\"main.js?$build\"><link rel=\"preload\" as=\"fetch\" type=\"application/wasm\" href=\"core_bg.wasm?$build\" crossorigin>|" \
    "$stage/index.html" >"$out/index.html"
  worker "$out" "$build"
}

# Home screens want pictures of fixed sizes: made from the one drawing. A phone asks for them only when the page is put there.
icons() {
  node --input-type=module - "$(realpath "$NPM")" "$1" <<'END'
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
const [modules, out] = process.argv.slice(2);
const { initWasm, Resvg } = createRequire(`${modules}/`)("@resvg/resvg-wasm");
await initWasm(readFileSync(`${modules}/@resvg/resvg-wasm/index_bg.wasm`));
const drawing = readFileSync("www/icons/bellows.svg");
for (const value of [180, 192, 512]) {
  writeFileSync(`${out}/bellows-${value}.png`, new Resvg(drawing, { fitTo: { mode: "width", value } }).render().asPng());
}
END
}

# bundle ENTRY FORMAT FILE [OPTION...]: the modules as one script.
bundle() {
  local entry=$1 format=$2 out=$3
  shift 3
  "$NPM/.bin/esbuild" "$entry" --bundle --format="$format" --minify --charset=utf8 --loader:.wasm=binary --loader:.txt=text --outfile="$out" --log-level=warning "$@"
}

# The worker's cache is named by what is in it, so that files of two builds never mix; it keeps no file but what it knows by its hash.
worker() {
  local file name id files=
  while IFS= read -r file; do
    name=${file#"$1"/}
    case $name in
      # The system keeps the home screen's pictures itself.
      sw.js | *.png) continue ;;
      index.html) name=./ ;;
      *.js | *.css | *.wasm) name=$name?$2 ;;
    esac
    files="$files[\"$name\", \"$(sha256sum "$file" | cut -c1-64)\"], "
  done < <(find "$1" -type f | LC_ALL=C sort)
  id=$(hash_of www/sw.js <(printf '%s' "$files"))
  sed -e "s|BUILD_ID|$id|" -e "s#\[\"FILES\", \"\"\]#$files#" www/sw.js >"$1/sw.js"
}

single_file() {
  local stage=$WORK/page out=dist/bellows.html csp
  printf 'import core from "./core_bg.wasm";\nimport worker from "./worker.txt";\nexport const bytes = async () => core;\nconst address = URL.createObjectURL(new Blob([worker], { type: "text/javascript" }));\nexport const workerAddress = () => address;\n' >"$stage/wasm.js"
  bundle "$stage/main.js" esm "$stage/script"
  if grep -qiE '</(script|style)|<!--' "$stage/script" "$stage/style"; then
    die "an inlined script or style would end its own element"
  fi
  csp=$(policy "$(inline_hash "$stage/script")" "$(inline_hash "$stage/style")" "connect-src 'none'" "worker-src blob:")
  { printf '<script type="module">'; cat "$stage/script"; echo '</script>'; } >"$stage/script.html"
  { printf '<style>'; cat "$stage/style"; echo '</style>'; } >"$stage/style.html"
  sed -e "s|POLICY|$csp|" -e '/<!-- preload -->/d' -e '/<link rel="manifest"/d' -e '/<link rel="apple-touch-icon"/d' \
    -e "s|icons/bellows.svg|data:image/svg+xml;base64,$(base64 -w0 www/icons/bellows.svg)|" \
    -e '/<link rel="stylesheet"/{' -e "r $stage/style.html" -e 'd' -e '}' \
    -e '/<script type="module"/{' -e "r $stage/script.html" -e 'd' -e '}' "$stage/index.html" >"$out"
  if grep -nE '(src|href)="[^#"]*\.(js|css|svg|webmanifest)"|POLICY' "$out"; then
    die "$out still asks for other files"
  fi
}

page() {
  local stage=$WORK/page
  say "page"
  rm -rf dist "$stage"
  mkdir -p dist "$stage"
  cp www/*.js "$WORK/core/core.js" "$WORK/core/core_bg.wasm" "$stage"
  blank_answer
  bundle "$stage/worker.js" iife "$stage/worker.txt" --define:import.meta.url=undefined
  "$NPM/.bin/esbuild" www/style.css --minify --charset=utf8 --outfile="$stage/style" --log-level=warning
  site
  single_file
}

# part NAME FILE... prints what these files weigh, each gzipped by itself as a host sends it, and adds it up.
part() {
  local name=$1 file bytes=0
  shift
  for file in "$@"; do bytes=$((bytes + $(gzip -9c "$file" | wc -c))); done
  printf '  %-28s %7d\n' "$name" "$bytes"
  first_visit=$((first_visit + bytes))
}

closing() {
  local site=dist/site first_visit=0 modules=()
  for file in "$site"/*.js; do
    [ "${file##*/}" = sw.js ] || modules+=("$file")
  done
  say "built"
  echo "What a phone downloads at its first visit, bytes gzipped:"
  part "core, core_bg.wasm" "$site/core_bg.wasm"
  part "scripts" "${modules[@]}"
  part "style.css" "$site/style.css"
  part "index.html" "$site/index.html"
  part "worker, manifest and icon" "$site/sw.js" "$site/manifest.webmanifest" "$site"/icons/*.svg
  printf '  %-28s %7d of at most %d\n' "in all" "$first_visit" "$FIRST_VISIT_MAX"
  echo "The single file: $(gzip -9c dist/bellows.html | wc -c) gzipped, $(wc -c <dist/bellows.html) on disk."
  [ "$first_visit" -le "$FIRST_VISIT_MAX" ] || die "a first visit downloads $first_visit bytes, more than $FIRST_VISIT_MAX"
  echo "Open dist/bellows.html in a browser, or put dist/site/ on any static host."
}

# ---- the gate ----

test_tools() {
  need cargo-clippy rust-web-clippy
  need rustfmt rustfmt-web
  need chromium chromium
  need chromedriver chromium-driver
  npm_tool eslint "$ESLINT"
  npm_tool typescript "$TYPESCRIPT"
}

# What the two further engines need.
engine_tools() {
  need firefox-esr firefox-esr
  need WebKitWebDriver webkit2gtk-driver
  need Xvfb xvfb
  if [[ "$("$TOOLS/bin/geckodriver" --version 2>/dev/null)" != "geckodriver $GECKODRIVER"* ]]; then
    cargo install geckodriver --version "$GECKODRIVER" --locked --force --root "$TOOLS"
  fi
}

lint() {
  say "lint"
  cargo fmt --check
  cargo clippy --locked --workspace --all-targets -- -D warnings
  # "All targets" are those that a plain `cargo test` runs.
  cargo clippy --locked --test browser -- -D warnings
  if has_target; then
    cargo clippy --locked --lib --target "$TARGET" -- -D warnings
  fi
  RUSTDOCFLAGS="-D warnings" cargo doc --locked --workspace --no-deps
  "$NPM/.bin/eslint" --config www/eslint.config.mjs --max-warnings 0 www
}

# The page's modules against the types of what the core hands over, which wasm-bindgen writes beside it.
types() {
  local project
  say "types of the page's modules"
  for project in jsconfig jsconfig.sw; do
    printf '{ "extends": "%s", "compilerOptions": { "rootDirs": ["%s", "%s"] } }\n' \
      "$PWD/www/$project.json" "$PWD/www" "$(realpath "$WORK/core")" >"$WORK/core/$project.json"
    "$NPM/.bin/tsc" --project "$WORK/core/$project.json"
  done
}

# browser_tests ENGINE [FILTER]: all of them, or those whose names hold a word, of which there must be some.
browser_tests() {
  local names
  say "browser tests: $*"
  names=$(cargo test --locked --test browser -- "${@:2}" --list)
  grep -q ': test$' <<<"$names" || die "no browser test is named ${*:2}"
  BELLOWS_ENGINE=$1 cargo test --locked --test browser -- "${@:2}"
}

# The core takes one processor for a minute, at the end of its build; meanwhile the native tests take the other.
checked_core() {
  local log=$WORK/core.log building
  mkdir -p "$WORK"
  core >"$log" 2>&1 &
  building=$!
  lint
  say "native tests"
  cargo test --locked --workspace
  wait "$building" || { cat "$log"; die "the core does not build"; }
  cat "$log"
  types
}

gate() {
  WARNINGS=deny
  tools
  test_tools
  checked_core
  page
  closing
  browser_tests chromium
}

further_engines() {
  engine_tools
  browser_tests firefox "$@"
  browser_tests webkit "$@"
}

case "${*:-build}" in
  build) tools; core; page; closing ;;
  test) gate ;;
  "test --all-engines") gate; further_engines ;;
  main-path) further_engines main_path ;;
  *) die "usage: ./build.sh [test [--all-engines] | main-path]" ;;
esac
