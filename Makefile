# `make serve` and `make test` are the two commands. Both install what is missing, into .tools where they can.
SHELL := /bin/bash
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory

PORT ?= 8080
TRUNK_VERSION := 0.21.14
BINDGEN_VERSION := 0.2.126
WASM := wasm32-unknown-unknown
TOOLS := $(CURDIR)/.tools
export PATH := $(TOOLS)/bin:$(PATH)
# What a package manager's colours and prompts would do to a log.
export CARGO_TERM_COLOR ?= auto

# Tools are built once and hardly worked: quick to build matters more than quick to run (3 minutes instead of 9).
TOOL_BUILD := CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=256 \
	CARGO_PROFILE_RELEASE_DEBUG=0 CARGO_PROFILE_RELEASE_STRIP=true CARGO_TARGET_DIR=$(TOOLS)/build

# Runs a step with its name before and its time after.
define step
	@echo "==> $(1)"; began=$$SECONDS; $(2) && echo "    done in $$((SECONDS - began)) s"
endef

.PHONY: help serve build test quick wasm tools bindgen trunk chromium browser-packages browser-test pictures fmt clean

help:
	@echo "make serve     build the app and serve it on http://127.0.0.1:$(PORT)/"
	@echo "make test      run every check: format, lints, docs, tests, browser tests"
	@echo "make quick     the same without the browser"
	@echo "make pictures  remake the picture in the README"
	@echo "make build     build the app into dist/"
	@echo "make fmt       format the code"

# A release build: it takes a little longer than a development build once, and starts at once on a phone.
# trunk reads NO_COLOR as true or false and stumbles over the usual 1.
serve: tools
	@echo "==> Building the app (about two minutes the first time), then serving it on http://127.0.0.1:$(PORT)/ (Ctrl+C ends it)"
	@env -u NO_COLOR trunk serve --release --skip-version-check --port $(PORT)

build: tools
	$(call step,Building the app (about two minutes the first time),env -u NO_COLOR trunk build --release --skip-version-check)

quick:
	$(call step,Format,cargo fmt --check)
	$(call step,Lints for the native core,cargo clippy --quiet --all-targets -- -D warnings)
	$(call step,Documentation,RUSTDOCFLAGS="-D warnings" cargo doc --quiet --no-deps --lib)
	$(call step,Native tests and doctests,cargo test --quiet)

test: quick wasm
	$(call step,Lints for the page,cargo clippy --quiet --target $(WASM) --lib --bin pairwright-app -- -D warnings)
	@$(MAKE) build
	@$(MAKE) browser-test
	@echo "==> All checks passed"

browser-test: chromium browser-packages
	$(call step,Browser tests in Chromium,cd tests/browser && npx playwright test)

pictures: build chromium browser-packages
	$(call step,Picture of the app for the README,cd tests/browser && PICTURES=1 npx playwright test picture.spec.ts --project=desk)

tools: wasm bindgen trunk

wasm:
	@rustup target list --installed | grep -qx $(WASM) || { echo "==> Adding the Rust target $(WASM) (a few seconds, once)"; rustup target add $(WASM); }

bindgen:
	@wasm-bindgen --version 2>/dev/null | grep -q " $(BINDGEN_VERSION)$$" || { \
		echo "==> Building wasm-bindgen $(BINDGEN_VERSION) into .tools (about a minute, once)"; \
		$(TOOL_BUILD) cargo install --quiet --locked --root $(TOOLS) wasm-bindgen-cli@$(BINDGEN_VERSION) --bin wasm-bindgen; }

trunk:
	@trunk --version 2>/dev/null | grep -q " $(TRUNK_VERSION)$$" || { \
		echo "==> Building trunk $(TRUNK_VERSION) into .tools (two to three minutes, once)"; \
		$(TOOL_BUILD) cargo install --quiet --locked --root $(TOOLS) trunk@$(TRUNK_VERSION); rm -rf $(TOOLS)/build; }

chromium:
	@command -v chromium >/dev/null || { \
		echo "==> Installing Chromium from the distribution's packages (a minute, once)"; \
		if [ "$$(id -u)" = 0 ]; then apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium >/dev/null; \
		else echo "Chromium is missing. Run: sudo apt-get install chromium"; exit 1; fi; }

browser-packages: tests/browser/node_modules/.package-lock.json

tests/browser/node_modules/.package-lock.json: tests/browser/package-lock.json
	@command -v npm >/dev/null || { echo "Node 20 with npm is missing; the browser tests need it. Run: sudo apt-get install nodejs npm"; exit 1; }
	$(call step,Installing the browser test packages (seconds),cd tests/browser && PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD=1 npm ci --no-audit --no-fund --silent && touch node_modules/.package-lock.json)

fmt:
	cargo fmt

clean:
	rm -rf dist target tests/browser/node_modules tests/browser/artefacts
