//! What is done to the app that trunk has just built, before it is put in place: program and script are named by what is in
//! them, the content policy goes into the start page, the worker gets its version and its list of files, and the scripts with stable names get the names of this build.
//!
//! A program of its own on the standard library alone, compiled and run by trunk's hook after each build. What the worker
//! does with its list is left to `public/worker.js`.

use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Tables may come from any address that the person gives; everything else comes from the page's own folder.
const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; worker-src 'self'; img-src 'self' data: blob:; connect-src 'self' https: http:; base-uri 'self'; form-action 'none'";
const POLICY_PLACE: &str = "<!-- policy -->";
const PAGE: &str = "index.html";
const WORKER: &str = "worker.js";
/// The programs beside the app's, as trunk names them: the search on the first screen, and what reads and writes spreadsheets.
const BESIDE: [&str; 2] = ["pairwright-finder", "pairwright-importer"];
/// The worker that fetches the program for spreadsheets when it is first needed.
const IMPORTER: &str = "importer.js";
/// The script with a stable name for a dealer's own page, with the placeholders that it must have.
const LOADER: &str = "pairwright.js";
const LOADER_NEEDS: [&str; 4] = ["app", "wasm", "style", "version"];

fn main() -> ExitCode {
    let stage = std::env::var_os("TRUNK_STAGING_DIR").map_or_else(|| PathBuf::from("dist"), PathBuf::from);
    // trunk's aids for development are inline, which the policy forbids.
    let release = std::env::var("TRUNK_PROFILE").is_ok_and(|profile| profile == "release");
    match finish(&stage, release) {
        Ok(_) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("after_build: {fault}");
            ExitCode::FAILURE
        }
    }
}

/// What keeps a build from being finished.
#[derive(Debug, PartialEq)]
enum Fault {
    /// A file cannot be read or written.
    File { path: PathBuf, why: String },
    /// Not exactly one file has a name of this kind.
    NotOne { kind: &'static str, found: Vec<String> },
    /// A name that would have to be escaped in an address.
    Name { name: String },
    /// A file lacks the place for something.
    NoPlace { file: String, place: String },
    /// A file still has a place that nothing is known for.
    LeftOver { file: String, place: String },
}

impl fmt::Display for Fault {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File { path, why } => write!(to, "{}: {why}", path.display()),
            Self::NotOne { kind, found } => {
                write!(to, "the build needs exactly one file {kind}, but has {}: {}", found.len(), found.join(", "))
            }
            Self::Name { name } => {
                write!(
                    to,
                    "the name {name:?} would have to be escaped in an address: use letters, digits, '.', '-', '_'"
                )
            }
            Self::NoPlace { file, place } => write!(to, "{file} has no {place}: put it back where it belongs"),
            Self::LeftOver { file, place } => {
                write!(to, "{file} has {place}, for which nothing is known: take it away or mend its name")
            }
        }
    }
}

/// Finishes the build in this folder; its version.
fn finish(stage: &Path, release: bool) -> Result<String, Fault> {
    name_by_content(stage)?;
    let names = names(stage)?;
    if release {
        let page = read(stage, PAGE)?;
        if !page.contains(POLICY_PLACE) {
            return Err(Fault::NoPlace { file: PAGE.to_owned(), place: POLICY_PLACE.to_owned() });
        }
        let tag = format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\" />");
        write(stage, PAGE, &page.replace(POLICY_PLACE, &tag))?;
    }
    // Before anything is filled in: the version is part of what is filled in.
    let version = version(stage, &names)?;
    let quoted = |names: Vec<&str>| {
        let quoted: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
        format!("[{}]", quoted.join(","))
    };
    let (later, first) = listed(&names).into_iter().partition(|name| is_for_later(name));
    let of_build = [
        ("app", only(&names, "pairwright-app-….js", "pairwright-app-", ".js")?),
        ("wasm", only(&names, "pairwright-app-…_bg.wasm", "pairwright-app-", "_bg.wasm")?),
        ("style", only(&names, "app-….css", "app-", ".css")?),
        ("version", version.clone()),
        ("files", quoted(first)),
        ("later", quoted(later)),
        ("importer", only(&names, "pairwright-importer-….js", "pairwright-importer-", ".js")?),
        ("importer-wasm", only(&names, "pairwright-importer-…_bg.wasm", "pairwright-importer-", "_bg.wasm")?),
    ];
    fill(stage, WORKER, &["version", "app", "files", "later"], &of_build)?;
    fill(stage, IMPORTER, &["importer", "importer-wasm"], &of_build)?;
    if names.iter().any(|name| name == LOADER) {
        fill(stage, LOADER, &LOADER_NEEDS, &of_build)?;
    }
    Ok(version)
}

/// Names programs and their scripts by a hash of what is in them: what the build tools call them says what they were made from, or nothing,
/// and the same name could hold other bytes after a change of a tool. So a browser may keep a file of such a name for good.
fn name_by_content(stage: &Path) -> Result<(), Fault> {
    let all = names(stage)?;
    let wasm = only(&all, "pairwright-app-….wasm", "pairwright-app-", "_bg.wasm")?;
    let script = only(&all, "pairwright-app-….js", "pairwright-app-", ".js")?;
    name_pair(stage, "pairwright-app", &wasm, &script)?;
    // trunk makes a plain script of a second program; the page imports it.
    for begins in BESIDE {
        let script = format!("{begins}.js");
        let text = read(stage, &script)?;
        write(stage, &script, &format!("{text}\nexport default wasm_bindgen;\n"))?;
        name_pair(stage, begins, &format!("{begins}_bg.wasm"), &script)?;
    }
    Ok(())
}

/// Names a program and its script, there and where the page names them.
fn name_pair(stage: &Path, begins: &str, wasm: &str, script: &str) -> Result<(), Fault> {
    let bytes = fs::read(stage.join(wasm)).map_err(|error| fault(stage, wasm, &error))?;
    let new_wasm = format!("{begins}-{:016x}_bg.wasm", fnv(NOTHING, &bytes));
    let text = read(stage, script)?.replace(wasm, &new_wasm);
    let new_script = format!("{begins}-{:016x}.js", fnv(NOTHING, text.as_bytes()));
    write(stage, script, &text)?;
    let page = read(stage, PAGE)?.replace(wasm, &new_wasm).replace(script, &new_script);
    write(stage, PAGE, &page)?;
    for (from, to) in [(wasm, &new_wasm), (script, &new_script)] {
        fs::rename(stage.join(from), stage.join(to)).map_err(|error| fault(stage, from, &error))?;
    }
    Ok(())
}

fn fault(stage: &Path, name: &str, error: &std::io::Error) -> Fault {
    Fault::File { path: stage.join(name), why: error.to_string() }
}

/// The names of all files, with `/` between folders, sorted.
fn names(stage: &Path) -> Result<Vec<String>, Fault> {
    fn collect(folder: &Path, before: &str, all: &mut Vec<String>) -> Result<(), Fault> {
        let fault = |error: std::io::Error| Fault::File { path: folder.to_owned(), why: error.to_string() };
        for entry in fs::read_dir(folder).map_err(fault)? {
            let entry = entry.map_err(fault)?;
            let name = format!("{before}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                collect(&entry.path(), &format!("{name}/"), all)?;
            } else {
                all.push(name);
            }
        }
        Ok(())
    }
    let mut all = Vec::new();
    collect(stage, "", &mut all)?;
    all.sort();
    let plain = |name: &str| name.chars().all(|sign| sign.is_ascii_alphanumeric() || "./-_".contains(sign));
    match all.iter().find(|name| !plain(name)) {
        Some(name) => Err(Fault::Name { name: name.clone() }),
        None => Ok(all),
    }
}

/// What the worker keeps: the start page by its folder, as some hosts send `index.html` elsewhere, and every other file but
/// the worker itself and what is only for a host (`.nojekyll`, `_headers`).
fn listed(names: &[String]) -> Vec<&str> {
    let for_a_host = |name: &str| name.split('/').any(|part| part.starts_with(['.', '_']));
    let files = names.iter().map(String::as_str).filter(|name| *name != PAGE && *name != WORKER && !for_a_host(name));
    std::iter::once("./").chain(files).collect()
}

/// The one file of the build whose name begins and ends like this.
fn only(names: &[String], kind: &'static str, begins: &str, ends: &str) -> Result<String, Fault> {
    let found: Vec<String> =
        names.iter().filter(|name| name.starts_with(begins) && name.ends_with(ends)).cloned().collect();
    match found.as_slice() {
        [one] => Ok(one.clone()),
        _ => Err(Fault::NotOne { kind, found }),
    }
}

/// A mark that changes with the name or a byte of any file, and is no lock: FNV-1a over names, lengths and bytes.
fn version(stage: &Path, names: &[String]) -> Result<String, Fault> {
    let mut mark = NOTHING;
    for name in names {
        let path = stage.join(name);
        let bytes = fs::read(&path).map_err(|error| Fault::File { path, why: error.to_string() })?;
        mark = fnv(mark, name.as_bytes());
        mark = fnv(fnv(mark, &[0]), &(bytes.len() as u64).to_le_bytes());
        mark = fnv(mark, &bytes);
    }
    Ok(format!("{mark:016x}"))
}

/// The FNV-1a hash of nothing, 64 bits.
const NOTHING: u64 = 0xcbf2_9ce4_8422_2325;

/// The FNV-1a hash, 64 bits, of what was hashed before and these bytes.
fn fnv(before: u64, bytes: &[u8]) -> u64 {
    bytes.iter().fold(before, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3))
}

/// Whether a file is kept only when the app has nothing else to do: it is large, and few need it.
fn is_for_later(name: &str) -> bool {
    name.starts_with("pairwright-importer-")
}

/// Puts values into the `{{places}}` of a file. It must have each that it needs, and may have the others.
fn fill(stage: &Path, file: &str, needs: &[&str], values: &[(&str, String)]) -> Result<(), Fault> {
    let mut text = read(stage, file)?;
    for need in needs {
        let place = format!("{{{{{need}}}}}");
        if !text.contains(&place) {
            return Err(Fault::NoPlace { file: file.to_owned(), place });
        }
    }
    for (name, value) in values {
        text = text.replace(&format!("{{{{{name}}}}}"), value);
    }
    match left_over(&text) {
        Some(place) => Err(Fault::LeftOver { file: file.to_owned(), place }),
        None => write(stage, file, &text),
    }
}

/// The first `{{word}}` of a text.
fn left_over(text: &str) -> Option<String> {
    text.split("{{").skip(1).find_map(|rest| {
        let (word, _) = rest.split_once("}}")?;
        (!word.is_empty() && word.chars().all(|sign| sign.is_ascii_alphabetic() || sign == '-'))
            .then(|| format!("{{{{{word}}}}}"))
    })
}

fn read(stage: &Path, name: &str) -> Result<String, Fault> {
    let path = stage.join(name);
    fs::read_to_string(&path).map_err(|error| Fault::File { path, why: error.to_string() })
}

fn write(stage: &Path, name: &str, text: &str) -> Result<(), Fault> {
    let path = stage.join(name);
    fs::write(&path, text).map_err(|error| Fault::File { path, why: error.to_string() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::ops::Deref;

    const FILES: [(&str, &str); 15] = [
        (".nojekyll", ""),
        ("_headers", "/*"),
        ("app-0a.css", "p {}"),
        ("icon.svg", "<svg/>"),
        ("importer.js", "{{importer}} {{importer-wasm}}"),
        ("index.html", "<head><!-- policy --></head>"),
        ("pairwright-app-1b.js", "script"),
        ("pairwright-app-1b_bg.wasm", "program"),
        ("pairwright-finder.js", "let wasm_bindgen; load pairwright-finder_bg.wasm"),
        ("pairwright-finder_bg.wasm", "finder"),
        ("pairwright-importer.js", "let wasm_bindgen; load pairwright-importer_bg.wasm"),
        ("pairwright-importer_bg.wasm", "importer"),
        ("pairwright.js", "{{app}} {{wasm}} {{style}} {{version}}"),
        ("table/demo.json", "{\"a\":{\"b\":{}}}"),
        ("worker.js", "'{{version}}' '{{app}}' '{{files}}' '{{later}}'"),
    ];

    /// The names of script and program of [`FILES`] once they are finished: the FNV-1a hashes of their texts.
    const SCRIPT: &str = "pairwright-app-acfc82293c04634a.js";
    const WASM: &str = "pairwright-app-5752dfa9a5b8154b_bg.wasm";

    /// A folder that goes with the test.
    struct Stage(PathBuf);

    impl Deref for Stage {
        type Target = Path;
        fn deref(&self) -> &Path {
            &self.0
        }
    }

    impl Drop for Stage {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    /// A build in a folder of its own, with these files in place of or besides the usual ones.
    fn build(name: &str, with: &[(&str, &str)]) -> Stage {
        let stage = Stage(std::env::temp_dir().join(format!("after-build-{}-{name}", std::process::id())));
        for (file, text) in FILES.iter().chain(with) {
            let path = stage.join(file);
            fs::create_dir_all(path.parent().expect("a folder")).expect("made");
            fs::write(path, text).expect("written");
        }
        stage
    }

    fn told(name: &str, with: &[(&str, &str)]) -> String {
        finish(&build(name, with), true).expect_err("a fault").to_string()
    }

    #[test]
    fn the_worker_gets_version_app_and_every_file_but_itself_and_the_hosts() {
        let stage = build("worker", &[]);
        let version = finish(&stage, true).expect("finished");
        let mut of_build = [SCRIPT, WASM];
        of_build.sort_unstable();
        let [first, second] = of_build;
        let finder = r#""pairwright-finder-cac380baf114aa8d_bg.wasm","pairwright-finder-fe329ac7658a92bf.js""#;
        let list = format!(
            r#"["./","app-0a.css","icon.svg","importer.js","{first}","{second}",{finder},"pairwright.js","table/demo.json"]"#
        );
        let later = r#"["pairwright-importer-269d1244418e48e3_bg.wasm","pairwright-importer-e1c92814d6c57b26.js"]"#;
        assert_eq!(read(&stage, "worker.js").expect("read"), format!("'{version}' '{SCRIPT}' '{list}' '{later}'"));
        let importer = "pairwright-importer-e1c92814d6c57b26.js pairwright-importer-269d1244418e48e3_bg.wasm";
        assert_eq!(read(&stage, "importer.js").expect("read"), importer);
        assert_eq!(version.len(), 16);
    }

    #[test]
    fn the_loader_names_this_build() {
        let stage = build("loader", &[]);
        let version = finish(&stage, true).expect("finished");
        let expected = format!("{SCRIPT} {WASM} app-0a.css {version}");
        assert_eq!(read(&stage, "pairwright.js").expect("read"), expected);
    }

    #[test]
    fn a_build_without_a_loader_is_finished_too() {
        let stage = build("none", &[]);
        fs::remove_file(stage.join("pairwright.js")).expect("removed");
        finish(&stage, true).expect("finished");
    }

    #[test]
    fn program_and_script_are_named_by_what_is_in_them() {
        let usual = build(
            "content",
            &[("index.html", "<head><!-- policy --></head> pairwright-app-1b.js pairwright-app-1b_bg.wasm")],
        );
        finish(&usual, true).expect("finished");
        assert!(read(&usual, "index.html").expect("read").ends_with(&format!(" {SCRIPT} {WASM}")));
        let other = build(
            "other-program",
            &[
                ("pairwright-app-1b_bg.wasm", "another program"),
                ("pairwright-app-1b.js", "load pairwright-app-1b_bg.wasm"),
            ],
        );
        finish(&other, true).expect("finished");
        let all = names(&other).expect("read");
        let wasm = only(&all, "", "pairwright-app-", "_bg.wasm").expect("one");
        let script = only(&all, "", "pairwright-app-", ".js").expect("one");
        assert_ne!(wasm, WASM);
        // The script asks for the program by its new name.
        assert_eq!(read(&other, &script).expect("read"), format!("load {wasm}"));
        let finder = read(&other, "pairwright-finder-fe329ac7658a92bf.js").expect("read");
        let expected =
            "let wasm_bindgen; load pairwright-finder-cac380baf114aa8d_bg.wasm\nexport default wasm_bindgen;\n";
        assert_eq!(finder, expected);
    }

    #[test]
    fn the_policy_is_for_a_release_alone() {
        let stage = build("release", &[]);
        finish(&stage, true).expect("finished");
        let page = read(&stage, "index.html").expect("read");
        assert!(page.starts_with("<head><meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'self';"));
        let stage = build("debug", &[]);
        finish(&stage, false).expect("finished");
        assert_eq!(read(&stage, "index.html").expect("read"), "<head><!-- policy --></head>");
    }

    #[test]
    fn the_version_changes_with_any_name_and_any_byte_and_with_nothing_else() {
        let usual = finish(&build("usual", &[]), true).expect("finished");
        assert_eq!(finish(&build("again", &[]), true).expect("finished"), usual);
        for (name, changed) in [
            ("byte", [("icon.svg", "<svg></svg>")]),
            ("worker-byte", [("worker.js", "'{{version}}' '{{app}}' '{{files}}' '{{later}}';")]),
            ("more", [("another.svg", "<svg/>")]),
            ("page", [("index.html", "<head><!-- policy --></head>\n")]),
        ] {
            assert_ne!(finish(&build(name, &changed), true).expect("finished"), usual, "{name}");
        }
        // What moves from the end of a name to the begin of a file makes a difference, too.
        let one = finish(&build("one", &[("a", "bc")]), true).expect("finished");
        assert_ne!(finish(&build("other", &[("ab", "c")]), true).expect("finished"), one);
    }

    #[test]
    fn the_hash_has_its_published_values() {
        // Fowler, Noll, Vo, Eastlake, Hansen: The FNV Non-Cryptographic Hash Algorithm, test vectors.
        assert_eq!(fnv(NOTHING, b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv(fnv(NOTHING, b"foo"), b"bar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn what_is_missing_or_left_over_is_told() {
        assert_eq!(
            told("no-policy", &[("index.html", "<head></head>")]),
            "index.html has no <!-- policy -->: put it back where it belongs"
        );
        assert_eq!(
            told("no-files", &[("worker.js", "'{{version}}' '{{app}}'")]),
            "worker.js has no {{files}}: put it back where it belongs"
        );
        assert_eq!(
            told("no-style", &[("pairwright.js", "{{app}} {{wasm}} {{version}}")]),
            "pairwright.js has no {{style}}: put it back where it belongs"
        );
        assert_eq!(
            told("left", &[("pairwright.js", "{{app}} {{wasm}} {{style}} {{version}} {{wasn}}")]),
            "pairwright.js has {{wasn}}, for which nothing is known: take it away or mend its name"
        );
        assert_eq!(
            told("two", &[("app-0b.css", "")]),
            "the build needs exactly one file app-….css, but has 2: app-0a.css, app-0b.css"
        );
        assert!(
            told("name", &[("a picture.png", "")]).starts_with("the name \"a picture.png\" would have to be escaped")
        );
    }

    #[test]
    fn a_folder_that_is_not_there_is_told() {
        let fault = finish(Path::new("/nowhere/at/all"), true).expect_err("a fault").to_string();
        assert!(fault.starts_with("/nowhere/at/all: "), "{fault}");
    }
}
