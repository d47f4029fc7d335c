//! Links between pages lead somewhere, to headings too.

use super::{Page, pages};

/// What a heading's link is: as forges make it, lower case, hyphens for spaces, no punctuation.
fn anchor(heading: &str) -> String {
    let kept = |c: &char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_');
    let text: String = heading.chars().filter(kept).collect();
    text.trim().to_lowercase().replace(' ', "-")
}

/// Where the page links to, of what is in the repository.
fn targets(page: &Page) -> Vec<&str> {
    let links = page.text.split("](").skip(1);
    let links = links.filter_map(|rest| Some(rest.split_once(')')?.0));
    let pictures = page.text.split("src=\"").skip(1);
    let pictures = pictures.filter_map(|rest| Some(rest.split_once('"')?.0));
    let all = links.chain(pictures);
    all.filter(|link| !link.starts_with("https://")).collect()
}

#[test]
fn lead_to_files_and_headings() {
    let mut count = 0;
    for page in pages() {
        for link in targets(&page) {
            count += 1;
            let (file, heading) = link.split_once('#').unwrap_or((link, ""));
            let to = match file {
                "" => super::root().join(&page.path),
                file => page.folder().join(file),
            };
            assert!(to.exists(), "{}: {link}", page.path);
            if !heading.is_empty() {
                let text = std::fs::read_to_string(&to).expect("a page");
                let mut headings = text.lines().filter(|line| line.starts_with('#'));
                let found = headings.any(|line| anchor(line.trim_start_matches('#')) == heading);
                assert!(found, "{}: {link}", page.path);
            }
        }
    }
    assert!(count > 40, "{count} links");
}
