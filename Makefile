# `make serve` and `make test` are the two commands. Both install what is missing, into the person's cache where they can.
SHELL := /bin/bash
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory

PORT ?= 8080
WASM := wasm32-unknown-unknown
# Later versions bring minifiers that we do not use and that take twice as long to build as all the rest.
TRUNK_VERSION := 0.17.5
# The command line tool must be of the very version of the library, so the lock file is the one place that names it.
BINDGEN_VERSION := $(shell sed -n '/^name = "wasm-bindgen"$$/{n;s/version = "\(.*\)"/\1/p}' Cargo.lock)
# What takes minutes to make lies outside the clone, by version, and is found by the next clone: see scripts/cache.sh.
export PAIRWRIGHT_CACHE := $(or $(filter /%,$(XDG_CACHE_HOME)),$(HOME)/.cache)/pairwright
CACHE := scripts/cache.sh
PYTHON = "$$($(CACHE) python_place)/bin/python"
TARGET := $(or $(CARGO_TARGET_DIR),target)
# No part of the crate, so cargo does not look after it: trunk compiles and runs it after each build.
HOOK := scripts/after_build.rs
export PATH := $(PAIRWRIGHT_CACHE)/trunk-$(TRUNK_VERSION)/bin:$(PAIRWRIGHT_CACHE)/wasm-bindgen-cli-$(BINDGEN_VERSION)/bin:$(PATH)
export CARGO_TERM_COLOR ?= auto
# In CI a lock file that is behind Cargo.toml is an error; at a desk cargo just mends it.
LOCKED := $(if $(CI),--locked)

# Runs a step with its name before and its time after.
define step
	@echo "==> $(1)"; began=$$SECONDS; unset MAKEFLAGS MFLAGS; if ( $(2) ); then echo "    done in $$((SECONDS - began)) s: $(1)"; \
	else code=$$?; echo "    FAILED after $$((SECONDS - began)) s: $(1)"; exit $$code; fi
endef

# Installs packages of the distribution when it may, else says which command to run.
define debian
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
		echo "==> Installing $(1) from the distribution's packages (a minute, once)"; \
		mkdir -p "$(PAIRWRIGHT_CACHE)" && flock "$(PAIRWRIGHT_CACHE)/apt.lock" sh -c 'apt-get update -qq && \
			DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $(1) </dev/null >/dev/null'; \
	else echo "Missing: $(1). Run: sudo apt-get install --no-install-recommends $(1)"; exit 1; fi
endef

.PHONY: help serve build test long size budgets core page quick invariants bench page-lints rust checkers second-opinion python wasm bindgen trunk tools crates chromium node browser-packages browser-tools \
	browser-test pictures screens icons schema workbook office fmt clean

help:
	@echo "make serve     build the app and serve it on http://127.0.0.1:$(PORT)/ (PORT=9000 make serve for another port)"
	@echo "make test      run every check: format, lints, docs, tests, browser tests"
	@echo "make long      the same, with every case of the tests that draw or make thousands of them; CI runs it"
	@echo "make quick     the same without the page and the browser"
	@echo "make invariants  list what must always hold, by the names of the tests that keep it, and run the native ones"
	@echo "make second-opinion  hold what we compute against general-purpose Python libraries"
	@echo "make bench     how long the core takes, against the plain way and against Python (about ten minutes)"
	@echo "make build     build the app into dist/"
	@echo "make size      what the program consists of: its largest functions, and the share of each crate"
	@echo "make budgets   what a visitor fetches, and the first screen on a slow phone by Lighthouse"
	@echo "make pictures  remake docs/pairwright.png, the picture in the README"
	@echo "make screens   take every screen, two sizes, light and dark, into tests/browser/artefacts/screens"
	@echo "make icons     remake the icons in public/ from icon.svg"
	@echo "make workbook  remake public/table/workbook.xlsx, the workbook to begin with, from the declarations of the table"
	@echo "make office    have LibreOffice open and save what we write, and read that again"
	@echo "make schema    remake public/table/schema.json and the rows of docs/table.md from the declarations of the table"
	@echo "make fmt       format the code"
	@echo "make clean     remove what was built (tools and packages of other people stay in $(PAIRWRIGHT_CACHE))"

# This trunk serves from the root only, so the relative addresses of a build are made absolute here.
# A release build: it takes 20 s longer than a development build once, but it is what people get: a tenth of the size,
# starts at once on a phone, and obeys the content policy. A changed source is built again while it serves.
serve: tools crates
	@$(CACHE) take release $(WASM)/release
	@if (exec 3<>/dev/tcp/127.0.0.1/$(PORT)) 2>/dev/null; then \
		echo "Port $(PORT) is taken by another program. Choose another one: make serve PORT=$$(( $(PORT) + 1 ))"; exit 1; fi
	@echo "==> Building the app (about two minutes the first time), then serving it on http://127.0.0.1:$(PORT)/ (Ctrl+C ends it)"
	@trunk serve --release --public-url / --port $(PORT)

build: tools crates
	@$(CACHE) take release $(WASM)/release
	$(call step,Building the app (about two minutes the first time),trunk build --release --quiet)
	@$(CACHE) keep release $(WASM)/release

# The page is built by one core most of the time, so core and page go side by side, and what the browser tests need is fetched meanwhile;
# they themselves have both cores.
test: rust checkers wasm
	@$(MAKE) -j3 core page browser-tools
	@$(MAKE) browser-test
	@echo "==> All checks passed"

# The tests that draw or make their cases by the thousand take all of them where this is set, else a part.
long: export LONG := 1
long: test

# Fast first, in each of the two.
core:
	@$(MAKE) quick
	@$(MAKE) second-opinion

page:
	@$(MAKE) page-lints
	@$(MAKE) build
	$(call step,What a visitor fetches,scripts/budgets.py)

browser-tools: chromium browser-packages

quick: rust checkers
	@$(CACHE) take debug
	$(call step,Format,cargo fmt --check || { echo "    make fmt mends this."; false; })
	$(call step,Lints for the native core and tests,cargo clippy $(LOCKED) --quiet --all-targets -- -D warnings)
	$(call step,Documentation,RUSTDOCFLAGS="-D warnings" cargo doc $(LOCKED) --quiet --no-deps)
	$(call step,Native tests and doctests,cargo test $(LOCKED) --quiet)
	$(call step,Checks of what finishes a build,mkdir -p $(TARGET) && rustfmt --check --edition 2024 $(HOOK) && \
		clippy-driver --edition 2024 --test $(HOOK) -W clippy::pedantic -D warnings -o $(TARGET)/after_build_tests && \
		$(abspath $(TARGET))/after_build_tests --quiet)
	$(call step,Checks of what is kept outside the clone,scripts/cache_test.sh)
	@$(CACHE) keep debug

# What must always hold is a test whose name begins with it. Those in the browser run with the others (make browser-test).
invariants: rust
	@echo "Native:"; grep -rnP --include=*.rs '^\s*fn invariant_' crates tests | sed -E 's/^([^:]*):[0-9]*:\s*fn invariant_(\w+).*/\1\t\2/' | sort | \
		awk -F'\t' '{ gsub("_", " ", $$2); if ($$1 != file) print "  " (file = $$1); print "    " $$2 }'
	@echo "In the browser:"; grep -rn --include=*.spec.ts --exclude-dir=node_modules "test(.invariant: " tests/browser | \
		sed -E "s/^([^:]*):[0-9]*:\s*test\((.)invariant: (.*)\2, async.*/\1\t\3/; s/[$$]\{[^}]*\}/…/g" | sort | \
		awk -F'\t' '{ if ($$1 != file) print "  " (file = $$1); print "    " $$2 }'
	@$(CACHE) take debug
	$(call step,Native invariants,cargo test $(LOCKED) --quiet --workspace --no-fail-fast -- invariant_)

# As the app is built: what is compiled for the build's own use serves both, and the core's side holds another lock.
page-lints: wasm checkers
	@$(CACHE) take release $(WASM)/release
	$(call step,Lints for the page,cargo clippy $(LOCKED) --quiet --release --target $(WASM) -p pairwright --lib --bin pairwright-app -p pairwright-finder --bin pairwright-finder -p pairwright-importer --bin pairwright-importer -- -D warnings)

# What we compute against general-purpose libraries of other people.
OPINION := $(abspath $(TARGET))/second-opinion.jsonl
second-opinion: rust python
	$(call step,Second opinion by fluids and pint,mkdir -p $(TARGET) && $(PYTHON) crates/hydraulics/tests/second_opinion/opinion.py > $(OPINION) && \
		SECOND_OPINION=$(OPINION) cargo test $(LOCKED) --quiet -p pairwright-hydraulics --test second_opinion -- --ignored)

# Medians by criterion, then the same circuit in Python with fluids, and the ratios.
bench: rust python
	$(call step,Benchmarks (about ten minutes),cargo bench $(LOCKED) --quiet -p pairwright-fit --bench core)
	@$(PYTHON) crates/fit/benches/plain.py

# What the program consists of: built as it is for people, but with its names.
size: wasm crates
	$(call step,Building the program with its names (five minutes),CARGO_PROFILE_RELEASE_STRIP=none CARGO_TARGET_DIR=$(TARGET)/size \
		cargo build $(LOCKED) --quiet --release --target $(WASM) --bin pairwright-app)
	@scripts/size.py $(TARGET)/size/$(WASM)/release/pairwright-app.wasm

# Sizes, as CI holds them, then the first screen on a slow phone.
budgets: build chromium node
	@scripts/budgets.py
	@[ -d tests/budgets/node_modules ] || { echo "==> Installing Lighthouse (half a minute, once)"; cd tests/budgets && npm ci --silent --no-audit --no-fund; }
	$(call step,Lighthouse on its slow phone,cd tests/budgets && CHROMIUM="$${CHROMIUM:-$$(command -v chromium)}" node lighthouse.mjs)

browser-test: chromium browser-packages
	$(call step,Browser tests in Chromium,cd tests/browser && CHROMIUM="$${CHROMIUM:-$$(command -v chromium)}" npx playwright test)

pictures: build chromium browser-packages
	$(call step,Picture of the app for the README,cd tests/browser && \
		CHROMIUM="$${CHROMIUM:-$$(command -v chromium)}" PICTURES=1 npx playwright test picture.spec.ts --project=desk)

# To be looked at one by one.
screens: build chromium browser-packages
	$(call step,Every screen in two sizes\, light and dark,cd tests/browser && rm -rf artefacts/screens && \
		CHROMIUM="$${CHROMIUM:-$$(command -v chromium)}" SCREENS=1 npx playwright test screens.spec.ts)

# The browser's pictures of public/icon.svg; look at them before they are committed.
icons: chromium browser-packages
	$(call step,Pictures of the icon,cd tests/browser && CHROMIUM="$${CHROMIUM:-$$(command -v chromium)}" node icons.mjs)

schema: rust
	@cargo run --quiet -p pairwright-table --example schema > public/table/schema.json.new && mv public/table/schema.json.new public/table/schema.json
	@cargo run --quiet -p pairwright-table --example rows > docs/table.md.new && mv docs/table.md.new docs/table.md

office: rust
	@command -v soffice >/dev/null || { $(call debian,libreoffice-calc); }
	scripts/office.sh

workbook: rust
	@cargo run --quiet -p pairwright-spreadsheet --example workbook > public/table/workbook.xlsx.new && mv public/table/workbook.xlsx.new public/table/workbook.xlsx

fmt: rust
	cargo fmt
	rustfmt --edition 2024 $(HOOK)

clean:
	rm -rf dist target tests/budgets/node_modules tests/browser/node_modules tests/browser/artefacts

# What follows installs what is missing, and says what it waits for.

rust:
	@command -v cargo >/dev/null || { echo "Rust is missing. Install it with rustup (https://rustup.rs), version 1.95 or later, then run this again."; exit 1; }
	@command -v cc >/dev/null || { $(call debian,gcc libc6-dev); }

checkers: rust
	@{ cargo fmt --version && cargo clippy --version; } >/dev/null 2>&1 || { echo "==> Adding rustfmt and clippy (a few seconds, once)"; rustup component add rustfmt clippy; }

wasm: rust
	@[ -d "$$(rustc --print target-libdir --target $(WASM))" ] || { echo "==> Adding the Rust target $(WASM) (a few seconds, once)"; rustup target add $(WASM); }

tools: wasm bindgen trunk

bindgen: rust
	@[ -n "$(BINDGEN_VERSION)" ] || { echo "Cargo.lock names no version of wasm-bindgen. Bring it back: git checkout Cargo.lock"; exit 1; }
	@wasm-bindgen --version 2>/dev/null | grep -q " $(BINDGEN_VERSION)$$" || { \
		echo "==> Building wasm-bindgen $(BINDGEN_VERSION) into $(PAIRWRIGHT_CACHE) (about a minute, once)"; \
		$(CACHE) tool wasm-bindgen-cli $(BINDGEN_VERSION) wasm-bindgen --no-default-features --bin wasm-bindgen; }

# After wasm-bindgen: they share most of their packages.
trunk: rust bindgen
	@trunk --version 2>/dev/null | grep -q " $(TRUNK_VERSION)$$" || { \
		echo "==> Building trunk $(TRUNK_VERSION) into $(PAIRWRIGHT_CACHE) (two to three minutes, once)"; \
		$(CACHE) tool trunk $(TRUNK_VERSION) trunk; }
	@$(CACHE) tools_done

# An environment of its own, made anew when the pinned versions change.
python:
	@command -v python3 >/dev/null && python3 -c 'import ensurepip, venv' 2>/dev/null || { $(call debian,python3 python3-venv); }
	@[ -x $(PYTHON) ] || { \
		echo "==> Making a Python environment for the second opinion (a minute at most, once)"; $(CACHE) python; }

# Fetched here, so that trunk finds them and a lock file that is behind is noticed. Says nothing when they are there.
crates: rust
	@cargo fetch $(LOCKED)

chromium:
	@command -v "$${CHROMIUM:-chromium}" >/dev/null || { $(call debian,chromium); }

node:
	@command -v npm >/dev/null && node -e 'process.exit(parseInt(process.versions.node) < 20 ? 1 : 0)' || { \
		echo "The browser tests need Node 20 or later with npm. Install it (https://nodejs.org), then run this again."; exit 1; }

browser-packages: node tests/browser/node_modules/.package-lock.json

tests/browser/node_modules/.package-lock.json: tests/browser/package-lock.json
	$(call step,Installing the browser test packages (seconds), \
		cd tests/browser && PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD=1 npm ci --no-audit --no-fund --silent && touch node_modules/.package-lock.json)
