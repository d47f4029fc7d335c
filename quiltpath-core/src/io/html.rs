//! Pages for people: one HTML file without anything to load.
//!
//! A page looks the same for all that is written here, light or dark as the reader's system is set,
//! black on white in print: the sheet of paper, its letters, colours and signs are those of
//! [`super::look`], which the worksheet takes as well.
//! Its own policy (`Content-Security-Policy`) forbids the network, and scripts but for the one that
//! a page may bring, so it works from a disk as well as from a mail.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::look::{LOOK, TYPE};
use super::paper::{Sheet, any_page_rule};

/// What pages have besides the sheet of paper that all take from [`super::look`].
const STYLE: &str = "\
h1,h2,h3{margin:0 0 .5rem}h2{border-top:1.5px solid var(--ink);padding-top:.9rem;margin-top:2.2rem}
p,ol,ul,dl{margin:.4em 0}ol,ul{padding-left:1.4em}dt{color:var(--soft);font-style:italic}dd{margin:0 0 .3em}
p,li,dd{orphans:3;widows:3}
.n{white-space:nowrap}
svg{height:auto;fill:none;stroke:none}
@media print{h1{font-size:18pt}h2{font-size:14pt;margin-top:1em;padding-top:.4em}h3{font-size:12pt}svg{max-width:none}}
";

/// What a page has besides its body.
pub(super) struct Head<'a> {
    /// The title of the page, as plain text.
    pub(super) title: &'a str,
    /// The paper that it is printed on; any when `None`.
    pub(super) sheet: Option<Sheet>,
    /// The script of the page, after its body.
    pub(super) script: Option<&'static str>,
    /// Style rules after those of all pages.
    pub(super) style: &'a str,
}

/// A whole page with this content of its body.
pub(super) fn page(head: &Head<'_>, body: &Markup) -> String {
    let mut policy = "default-src 'none'; style-src 'unsafe-inline'".to_owned();
    if head.script.is_some() {
        policy += "; script-src 'unsafe-inline'";
    }
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy);
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (head.title) }
                style { (PreEscaped(style(head))) }
            }
            body.paper {
                (body)
                @if let Some(script) = head.script { script { (PreEscaped(script)) } }
            }
        }
    };
    let mut out = page.into_string();
    out.push('\n');
    out
}

fn style(head: &Head<'_>) -> String {
    let mut out = format!("{LOOK}{TYPE}{STYLE}");
    match head.sheet {
        Some(sheet) => out.push_str(&sheet.page_rule()),
        None => out.push_str(&any_page_rule()),
    }
    out.push_str(head.style);
    out
}

/// The text, ended by an ellipsis after `limit` characters.
pub(super) fn shortened(text: &str, limit: usize) -> String {
    match text.char_indices().nth(limit) {
        Some((end, _)) => format!("{}…", text[..end].trim_end()),
        None => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_title_is_plain_text() {
        let sheet = Sheet {
            paper: crate::io::paper::Paper::Letter,
            sideways: false,
        };
        let head = Head {
            title: "</title><b>&",
            sheet: Some(sheet),
            script: None,
            style: "",
        };
        let out = page(&head, &html! { "<p>" });
        assert!(out.contains("<body class=\"paper\">&lt;p&gt;</body>"));
        assert!(out.contains("<title>&lt;/title&gt;&lt;b&gt;&amp;</title>"));
        assert!(out.contains("@page{size:letter portrait;margin:12.7mm}"));
    }

    #[test]
    fn long_text_is_cut_between_characters() {
        assert_eq!(shortened("ab", 2), "ab");
        assert_eq!(shortened("éäü", 2), "éä…");
        assert_eq!(shortened("a b", 2), "a…");
    }
}
