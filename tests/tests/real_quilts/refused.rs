//! What gives no quilt, no widths and no stations, told with its key and what would be accepted.

use super::{LEG, refused};

#[test]
fn what_gives_no_outline_is_refused_with_its_key() {
    for (quilt, message) in [
        (
            "{}",
            "quilt: no measures are given; give the width and the height, or",
        ),
        (r#"{"width":60}"#, "quilt: width alone can't fix an outline"),
        (
            r#"{"width":60,"height":70,"rising":90}"#,
            "quilt: width, height, rising alone can't fix",
        ),
        (
            r#"{"top":60,"right":70,"bottom":60}"#,
            "quilt: top, right, bottom alone can't fix",
        ),
        (
            r#"{"top":60,"right":70,"bottom":60,"left":70,"falling":0}"#,
            "quilt.falling: the falling diagonal is 0",
        ),
        (
            r#"{"top":60,"right":70,"bottom":60,"left":70,"falling":140}"#,
            "quilt: the top side (60 in), the right side (70 in) and the falling diagonal (140 in) don't form a triangle",
        ),
        (r#"{"corners":[[0,0],[60,0]]}"#, "quilt.corners: 2 corners"),
        (
            r#"{"corners":[[0,0],[0,60],[60,60],[60,0]]}"#,
            "quilt.corners: the top left corner",
        ),
        (
            r#"{"corners":[[0,0],[60],[60,60],[60,0]]}"#,
            "quilt.corners[1]",
        ),
    ] {
        let error = refused(quilt, LEG);
        assert!(error.contains(message), "{quilt}: {error}");
    }
    let hexagon = r#"{"corners":[[12,0],[36,0],[48,20.75],[36,41.5],[12,41.5],[0,20.75]]}"#;
    let square = r#"{"width":60,"height":70}"#;
    let width = |width: &str| LEG.replace("\"width\":5", &format!("\"width\":{width}"));
    let stations = |stations: &str| {
        LEG.replace(
            "\"width\":5",
            &format!("\"width\":5,\"stations\":[{stations}]"),
        )
    };
    for (quilt, border, message) in [
        (
            hexagon,
            width(r#"{"top":5}"#),
            "width: the names top, right, bottom and left are for quilts of 4 sides, but this one has 6",
        ),
        (hexagon, width("[5,5,5]"), "width: 3 values for 6 sides"),
        (
            square,
            width(r#"{"top":5,"left":5}"#),
            "width: the right side has no width",
        ),
        (square, width("true"), "give a length such as 6"),
        (
            square,
            width(r#"{"top":5,"tpo":5}"#),
            "borders[0].width.tpo: unknown key \"tpo\"; did you mean \"top\"?",
        ),
        (
            square,
            width("31"),
            "width: the border is 31 in wide, but only 30 in is left",
        ),
        (
            square,
            width("[5,31,5,31]"),
            "width: the border is 31 in wide, but only 30 in is left",
        ),
        (
            square,
            stations(r#"{"side":"top","at":60}"#),
            "stations[0]: at: the station lies at 60 in, but the side is 60 in long",
        ),
        (
            square,
            stations(r#"{"side":"tip","at":6}"#),
            "stations[0]: side: there is no side \"tip\"; give top, right, bottom, left, or 1 to 4",
        ),
        (
            square,
            stations(r#"{"side":0,"at":6}"#),
            "there is no side 0",
        ),
        (
            square,
            stations(r#"{"side":-1,"at":6}"#),
            "give a side: \"top\"",
        ),
        (
            hexagon,
            stations(r#"{"side":"top","at":6}"#),
            "there is no side \"top\"; give 1 to 6",
        ),
        (
            square,
            stations(r#"{"side":1,"at":30},{"side":"top","at":30}"#),
            "stations: two stations of one side lie at 30 in",
        ),
        (
            square,
            stations(r#"{"side":1,"at":30,"seam":"1/2"}"#),
            "borders[0]: stations: top side: stations[0]: the gaps take",
        ),
    ] {
        let error = refused(quilt, &border);
        assert!(error.contains(message), "{border}: {error}");
    }
}
