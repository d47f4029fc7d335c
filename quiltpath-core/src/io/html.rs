//! Pages for people: one HTML file without anything to load.
//!
//! A page looks the same for all that is written here: system fonts, light or dark as the reader's
//! system is set, black on white in print. Its own policy (`Content-Security-Policy`) forbids the
//! network, and scripts but for the one that a page may bring, so it works from a disk as well as
//! from a mail. Colours are from a published palette for colour-blind readers (Okabe and Ito, 2008;
//! from memory), and no meaning rests on colour
//! alone. Text keeps the contrast of WCAG 2.2 (1.4.3: 4.5 to 1; 1.4.11: 3 to 1 for marks); the
//! tests compute it.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::paper::{Sheet, any_page_rule};

/// The colours by name: light screen, dark screen, print.
const COLOURS: [(&str, [&str; 3]); 12] = [
    ("ground", ["#f4f2ee", "#17191c", "#ffffff"]),
    ("paper", ["#ffffff", "#22252a", "#ffffff"]),
    ("ink", ["#1a1a1a", "#f0f0f0", "#000000"]),
    ("soft", ["#595959", "#b4b8bf", "#000000"]),
    ("start", ["#009e73", "#009e73", "#000000"]),
    ("end", ["#d55e00", "#d55e00", "#000000"]),
    ("corner", ["#0072b2", "#56b4e9", "#000000"]),
    ("link", ["#c04f00", "#e69f00", "#000000"]),
    ("cloth", ["#f4efe6", "#2a2c2f", "#ffffff"]),
    ("strip", ["#e6dcc8", "#37373a", "#f0f0f0"]),
    ("seam", ["#75674c", "#9a917f", "#555555"]),
    ("lit", ["#ffd97a", "#5a4a14", "#ffffff"]),
];

const STYLE: &str = "\
*{box-sizing:border-box}
html{background:var(--ground);color:var(--ink);font:16px/1.5 system-ui,sans-serif}
body{margin:0 auto;padding:1rem;max-width:75rem;overflow-wrap:break-word}
h1,h2{line-height:1.2;margin:1.2em 0 .4em}h1{font-size:1.6rem;margin-top:0}h2{font-size:1.15rem}
p,ol,ul,dl{margin:.4em 0}ol,ul{padding-left:1.4em}dt{color:var(--soft)}dd{margin:0 0 .3em}
svg{display:block;max-width:100%;height:auto;fill:none;stroke:none}
svg text{fill:var(--ink);font-family:system-ui,sans-serif}
@media print{html{font-size:10pt;line-height:1.35}body{padding:0;max-width:none}\
h1{font-size:15pt}h2{font-size:11.5pt;margin-top:.8em}svg{max-width:none}}
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
    let mut out = String::new();
    let media = [
        ":root{color-scheme:light dark",
        "@media screen and (prefers-color-scheme:dark){:root{color-scheme:dark",
        "@media print{:root{color-scheme:light",
    ];
    for (at, rule) in media.into_iter().enumerate() {
        out.push_str(rule);
        for (name, values) in COLOURS {
            out.push_str(&format!(";--{name}:{}", values[at]));
        }
        out.push_str(if at == 0 { "}\n" } else { "}}\n" });
    }
    out.push_str(STYLE);
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

    /// Relative luminance as in WCAG 2.2, "relative luminance".
    fn luminance(colour: &str) -> f64 {
        let channel = |at: usize| {
            let byte = u8::from_str_radix(&colour[at..at + 2], 16).expect("a colour");
            let share = f64::from(byte) / 255.0;
            if share <= 0.040_45 {
                share / 12.92
            } else {
                ((share + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    /// Contrast ratio as in WCAG 2.2, "contrast ratio".
    fn contrast(one: &str, other: &str) -> f64 {
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_and_marks_stand_out_on_every_screen() {
        assert!((contrast("#ffffff", "#000000") - 21.0).abs() < 1e-9);
        // A worked value that checkers give for #777 on white.
        assert!((contrast("#777777", "#ffffff") - 4.48).abs() < 0.005);
        let colour = |name| COLOURS.iter().find(|c| c.0 == name).expect("a name").1;
        for at in 0..3 {
            for back in ["ground", "paper"] {
                let back = colour(back)[at];
                for name in ["ink", "soft"] {
                    assert!(contrast(colour(name)[at], back) >= 4.5, "{name} {at}");
                }
                for name in ["start", "end"] {
                    assert!(contrast(colour(name)[at], back) >= 3.0, "{name} {at}");
                }
            }
            for back in ["cloth", "strip"] {
                let back = colour(back)[at];
                for name in ["ink", "corner", "link", "seam"] {
                    assert!(contrast(colour(name)[at], back) >= 3.0, "{name} {at}");
                }
            }
            for name in ["ink", "corner", "link"] {
                assert!(
                    contrast(colour(name)[at], colour("lit")[at]) >= 3.0,
                    "{name} {at}"
                );
            }
        }
    }

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
