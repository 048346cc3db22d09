//! What any host of the page should send with it: `serve` does, and HOSTING.md lists it.

/// What the page may load and run.
///
/// The page carries the same in its markup (`www/index.html`) but for `frame-ancestors`, which counts
/// as a header only. Nothing is sent anywhere, so no form has a target, and what becomes a script's
/// address or markup goes through the one policy of `www/page/trusted.js`.
pub const CONTENT_SECURITY_POLICY: &str = "default-src 'self'; \
    script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; \
    connect-src 'self'; worker-src 'self'; manifest-src 'self'; object-src 'none'; \
    base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; \
    trusted-types footroom; frame-ancestors 'none'";

/// What goes with every answer, kinds of file and their caching aside.
pub const HEADERS: [(&str, &str); 6] = [
    ("Content-Security-Policy", CONTENT_SECURITY_POLICY),
    ("X-Content-Type-Options", "nosniff"),
    // The case is in the fragment, which is never sent; nor is the page's address to anybody.
    ("Referrer-Policy", "no-referrer"),
    (
        "Permissions-Policy",
        "camera=(), display-capture=(), geolocation=(), microphone=(), payment=(), usb=(), \
         clipboard-write=(self), fullscreen=(self)",
    ),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
];

/// For names that carry a hash of their content: another content has another name.
pub const CACHE_HASHED: &str = "public, max-age=31536000, immutable";

/// For all other names, the page and its service worker first of all: to be asked for every time.
pub const CACHE_OTHER: &str = "no-cache";

/// How long a browser may keep what stands at this path.
pub fn cache_rule(path: &str) -> &'static str {
    let name = path.rsplit('/').next().unwrap_or(path);
    let is_hash = |text: &str| text.len() == 10 && text.bytes().all(|b| b.is_ascii_hexdigit());
    let hashed = ["js", "css", "wasm"].iter().any(|ending| {
        name.strip_suffix(ending)
            .and_then(|rest| rest.strip_suffix('.'))
            .and_then(|rest| rest.rsplit_once('-'))
            .is_some_and(|(_, hash)| is_hash(hash))
    });
    if hashed { CACHE_HASHED } else { CACHE_OTHER }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paths;
    use crate::refs;

    fn text(path: &str) -> String {
        std::fs::read_to_string(paths::root().join(path)).expect(path)
    }

    /// A host that sends no headers has the policy all the same.
    #[test]
    fn the_markup_carries_the_policy() {
        let page = text("www/index.html");
        let marked = CONTENT_SECURITY_POLICY.replace("; frame-ancestors 'none'", "");
        assert!(page.contains(&format!(
            "<meta http-equiv=\"Content-Security-Policy\" content=\"{marked}\">"
        )));
    }

    #[test]
    fn the_page_for_hosts_lists_every_header() {
        let guide = text("web/HOSTING.md");
        for (name, value) in HEADERS {
            assert!(guide.contains(&format!("{name}: {value}\n")), "{name}");
        }
        for rule in [CACHE_HASHED, CACHE_OTHER] {
            assert!(guide.contains(&format!("Cache-Control: {rule}")), "{rule}");
        }
    }

    #[test]
    fn only_names_with_a_hash_are_kept() {
        let files: refs::Files = [
            ("index.html", "<script src=\"js/main.js\"></script>"),
            ("js/main.js", "1"),
        ]
        .into_iter()
        .map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec()))
        .collect();
        let names = refs::hashed_names(&files);
        assert_eq!(cache_rule(&names["js/main.js"]), CACHE_HASHED);
        for path in [
            "index.html",
            "sw.js",
            "js/main.js",
            "js/long-name.js",
            "pkg/a-0123456789.d.ts",
            "icons/footroom.svg",
            "a-0123456789.html",
            "a-012345678g.js",
        ] {
            assert_eq!(cache_rule(path), CACHE_OTHER, "{path}");
        }
    }
}
