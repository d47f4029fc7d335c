//! Pages for people: one HTML file without anything to load.
//!
//! A page looks the same for all that is written here: one family of letters, light or dark as the
//! reader's system is set, black on white in print, with the colours and signs of [`super::look`].
//! Its own policy (`Content-Security-Policy`) forbids the network, and scripts but for the one that
//! a page may bring, so it works from a disk as well as from a mail.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::look::{FAMILY, LOOK};
use super::paper::{Sheet, any_page_rule};

const STYLE: &str = "\
*{box-sizing:border-box}
html{background:var(--desk);color:var(--ink);font-size:17px;line-height:1.5;font-variant-numeric:lining-nums tabular-nums}
body{background:var(--paper);margin:0 auto;padding:2rem 1.2rem 3rem;max-width:72rem;overflow-wrap:break-word}
@media(min-width:44rem){html{font-size:18px}body{padding:2.2rem 3rem 3.2rem}}
h1,h2,h3{font-weight:400;line-height:1.2;margin:0 0 .5rem;break-after:avoid}
h1{font-size:2.35rem}h2{font-size:1.75rem;border-top:1.5px solid var(--ink);padding-top:.9rem;margin-top:2.2rem}h3{font-size:1.17rem;font-style:italic}
p,ol,ul,dl{margin:.4em 0}ol,ul{padding-left:1.4em}dt{color:var(--soft);font-style:italic}dd{margin:0 0 .3em}b,th{font-weight:600}
p,li,dd{orphans:3;widows:3}
.n{white-space:nowrap}.sr{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.fr{display:inline-flex;flex-direction:column;vertical-align:middle;font-size:max(.71em,12px);line-height:1.04;text-align:center;margin:0 .1em 0 .16em}
.fr::before,.fr::after{padding:0 .12em}.fr::before{content:attr(data-above);border-bottom:1px solid currentColor}.fr::after{content:attr(data-below)}
svg{display:block;max-width:100%;height:auto;fill:none;stroke:none}
:focus-visible{outline:2px solid var(--hers);outline-offset:3px}
@media print{html{font-size:11pt;line-height:1.35}body{padding:0;max-width:none}\
h1{font-size:18pt}h2{font-size:14pt;margin-top:1em;padding-top:.4em}h3{font-size:12pt}.fr{font-size:9pt}li{break-inside:avoid}svg{max-width:none}}
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
            body {
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
    let mut out = format!("{LOOK}html{{font-family:{FAMILY}}}\n{STYLE}");
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
        assert!(out.contains("<body>&lt;p&gt;</body>"));
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
