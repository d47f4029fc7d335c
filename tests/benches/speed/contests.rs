//! The rows of the table: each work that has a target, ours against the peers.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use quiltpath_core::io::json::write_plan;
use quiltpath_tests::speed::inputs::{
    DemoPlan, curves, drawing, meander, path_data, small_files, spirograph, waves,
};
use quiltpath_tests::speed::report::{Contest, Target};
use quiltpath_tests::speed::works::{self, DENSE, Run, SPARSE, run};

use crate::peers;

const CUBICS: usize = 20_000;
const POINTS: usize = 1_000_000;
const CUT: usize = 100_000;
const FILES: usize = 2_000;
const PLAN: usize = 250_000;

/// Makes the contest of this name.
type Make = fn(&'static str) -> Contest;

/// The contests by name, each made when its turn comes, so that no input takes another's memory.
pub(crate) const CONTESTS: &[(&str, Make)] = &[
    ("read SVG, 20,000 cubics", reading),
    ("flatten 20,000 cubics, reused buffer", flattening),
    ("affine, 1,000,000 points", affine),
    ("cut 100,000 points to an L, few crossings", |name| {
        cutting(name, waves(CUT), 0.2)
    }),
    ("cut 100,000 points to an L, many crossings", |name| {
        cutting(name, spirograph(CUT), 0.01)
    }),
    ("even resample, 1,000,000 points, dense", |name| {
        resampling(name, DENSE, 0.6)
    }),
    ("even resample, 1,000,000 points, sparse", |name| {
        resampling(name, SPARSE, 0.9)
    }),
    ("2,000 small files read and boxed, 1 thread", |name| {
        boxing(name, 1)
    }),
    ("2,000 small files read and boxed, 2 threads", |name| {
        boxing(name, 2)
    }),
    ("whole plan, 250,000 points: solve", |name| {
        alone(name, 30.0, works::planned(PLAN, false).1)
    }),
    ("whole plan, 250,000 points: solve and stitch", |name| {
        alone(name, 30.0, works::planned(PLAN, true).1)
    }),
    ("whole plan, 250,000 points: command, all files", |name| {
        alone(name, 80.0, command(PLAN))
    }),
];

fn reading(name: &'static str) -> Contest {
    let data = path_data(&curves(CUBICS));
    let svg = drawing(&data);
    Contest {
        name,
        target: Target::TimesPeer(1.0, "kurbo, path data alone"),
        ours: works::read(CUBICS),
        peers: vec![
            ("kurbo, path data alone", peers::kurbo_parser(data.clone())),
            ("roxmltree + kurbo", peers::roxmltree_kurbo(svg.clone())),
            ("svgtypes, path data alone", peers::svgtypes(data)),
            ("usvg", peers::usvg(svg)),
        ],
    }
}

fn flattening(name: &'static str) -> Contest {
    Contest {
        name,
        target: Target::TimesPeer(1.0, "lyon_geom f64"),
        ours: works::flattened_again(CUBICS),
        peers: vec![
            ("lyon_geom f64", peers::lyon_flatten(curves(CUBICS))),
            ("kurbo", peers::kurbo_flatten(curves(CUBICS))),
        ],
    }
}

fn affine(name: &'static str) -> Contest {
    let points = meander(POINTS, DENSE);
    Contest {
        name,
        target: Target::TimesPeer(1.1, "memcpy"),
        ours: works::affine(POINTS),
        peers: vec![
            ("memcpy", peers::memcpy(points.clone())),
            ("kurbo", peers::kurbo_affine(&points)),
            ("nalgebra", peers::nalgebra_affine(points)),
        ],
    }
}

fn cutting(name: &'static str, points: Vec<quiltpath_core::geom::Point>, times: f64) -> Contest {
    Contest {
        name,
        target: Target::TimesBest(times),
        peers: peers::cutters(&points),
        ours: works::cut(points),
    }
}

fn resampling(name: &'static str, per_stitch: f64, times: f64) -> Contest {
    let points = meander(POINTS, per_stitch);
    Contest {
        name,
        target: Target::TimesPeer(times, "lyon f32"),
        ours: works::resampled(POINTS, per_stitch),
        peers: vec![("lyon f32", peers::lyon_walk(&points, per_stitch))],
    }
}

fn boxing(name: &'static str, threads: usize) -> Contest {
    Contest {
        name,
        target: Target::TimesPeer(0.8, "roxmltree + kurbo"),
        ours: works::boxes(FILES, threads),
        peers: vec![
            (
                "roxmltree + kurbo",
                peers::roxmltree_kurbo_boxes(small_files(FILES), threads),
            ),
            ("usvg", peers::usvg_boxes(small_files(FILES), threads)),
        ],
    }
}

fn alone(name: &'static str, milliseconds: f64, ours: Run) -> Contest {
    Contest {
        name,
        target: Target::Milliseconds(milliseconds),
        ours,
        peers: Vec::new(),
    }
}

/// `quiltpath plan` on the demo, its files read from and written to a temporary folder.
fn command(points: usize) -> Run {
    let demo = DemoPlan::of(points).expect("the demo");
    let folder = tempfile::tempdir().expect("a temporary folder");
    for name in ["corner.svg", "border.svg"] {
        std::fs::copy(DemoPlan::folder().join(name), folder.path().join(name)).expect("a copy");
    }
    std::fs::write(folder.path().join("plan.json"), write_plan(&demo.spec)).expect("the plan");
    let program = built();
    run(move || {
        let done = Command::new(&program)
            .current_dir(folder.path())
            .args(["plan", "plan.json", "--out", "out", "--force"])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .status()
            .expect("the command starts");
        assert!(done.success(), "{done}");
    })
}

/// The command, built as users build it, beside this program's own folder.
fn built() -> PathBuf {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let done = Command::new(cargo)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .args([
            "build",
            "--release",
            "--quiet",
            "--package",
            "quiltpath-cli",
        ])
        .status()
        .expect("cargo starts");
    assert!(done.success(), "{done}");
    let here = std::env::current_exe().expect("the place of this program");
    let folder = here.parent().and_then(Path::parent).expect("release");
    folder.join(format!("quiltpath{}", std::env::consts::EXE_SUFFIX))
}
