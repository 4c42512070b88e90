//! Sheets on paper: what is placed stays on the page, what is written can be read again, and nothing hostile breaks it.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use std::path::Path;
use std::process::Command;
use std::time::Instant;

use springwright::base::units::Quantity;
use springwright::job::{Job, Plan, Side};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::pictures::drawing::{Anchor, Drawing, Fill, Shape, Stroke};
use springwright::report::pictures::force_speed;
use springwright::report::pictures::picture;
use springwright::report::pictures::plot;
use springwright::report::print;
use springwright::report::sheets::{self, Kind, Printed};
use springwright::report::write::page::logo::{Logo, LogoError, MOST_BYTES, MOST_PX};
use springwright::report::write::page::{
    Fit, Fonts, Item, Letterhead, PT_PER_MM, Pages, Paper, Part, Printing, SMALLEST_PT, Spot, frame_pt, lay_out, pdf,
    raster,
};
use springwright::report::write::text::{self, Markup};
use springwright::shop::lists::Shop;
use springwright::shop::presets;
use springwright::solve::answer::{Answer, State};
use springwright::solve::solve;

use crate::common::effort::{IS_WHOLE, some};
use crate::common::kept::{self, Kept};

const DATE: &str = "2026-11-25";

fn of_preset(kind: Kind, name: &str, paper: Paper) -> Pages {
    let kept = kept::named(name);
    of_answer(kind, name, &spoken(kept, "en"), kept.answer(), paper)
}

/// The job with its sheets in this language.
fn spoken(kept: &Kept, language: &str) -> Job {
    let mut job = kept.job.clone();
    job.shop.language = language.to_owned();
    job
}

fn of_answer(kind: Kind, name: &str, job: &Job, answer: &Answer, paper: Paper) -> Pages {
    let printed = Printed { date: Some(DATE), on_pages: true, ..Printed::default() };
    let (report, fit) = print::sheet(kind, job, answer, printed, sheets::words_of(job));
    let printing = print::printing(job, paper, fit, None, name, DATE);
    lay_out(&report, &printing, &mut Fonts::shipped())
}

fn on(report: &Report, fit: Fit) -> Pages {
    let printing = Printing { fit, ..Printing::default() };
    lay_out(report, &printing, &mut Fonts::shipped())
}

/// Everything lies inside the frame of its page, and no letter is too small to read.
fn holds(pages: &Pages) {
    const LINE_PT: f32 = 0.5;
    let frame = frame_pt(pages.paper);
    for (n, page) in pages.pages.iter().enumerate() {
        for placed in page {
            let [left, top, right, bottom] = pages.bounds_pt(&placed.item);
            let inside = left >= frame[0] - LINE_PT
                && top >= frame[1] - LINE_PT
                && right <= frame[2] + LINE_PT
                && bottom <= frame[3] + LINE_PT;
            assert!(inside, "page {}: {:?} reaches {left} {top} {right} {bottom}, frame {frame:?}", n + 1, placed.item);
            if let Item::Text { run, .. } = &placed.item {
                assert!(run.size_pt >= SMALLEST_PT - 1e-3, "{} points: {}", run.size_pt, run.text);
            }
        }
    }
}

/// No two runs of text of one page lie on each other.
fn apart(pages: &Pages) {
    for page in &pages.pages {
        let runs: Vec<(&str, [f32; 4])> = page
            .iter()
            .filter_map(|p| match &p.item {
                Item::Text { run, at } if !run.text.trim().is_empty() => {
                    // From the height of small letters to the base line: lines may stand close.
                    Some((run.text.as_str(), [at[0], at[1] - 0.5 * run.size_pt, at[0] + run.width_pt, at[1]]))
                }
                _ => None,
            })
            .collect();
        for (i, (a, p)) in runs.iter().enumerate() {
            for (b, q) in &runs[i + 1..] {
                let apart = p[2] <= q[0] + 0.1 || q[2] <= p[0] + 0.1 || p[3] <= q[1] || q[3] <= p[1];
                assert!(apart, "{a:?} at {p:?} lies on {b:?} at {q:?}");
            }
        }
    }
}

/// Words without spaces and line breaks, to compare texts that are broken differently.
fn solid(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

/// Every text of a report, in reading order.
fn texts(report: &Report) -> Vec<String> {
    let mut all = vec![report.title.clone()];
    for block in &report.blocks {
        match block {
            Block::Heading(t) | Block::Text(t) | Block::Caution(t) => all.push(t.clone()),
            Block::List(ts) | Block::Blanks(ts) => all.extend(ts.clone()),
            Block::Steps(ts) => all.extend(ts.iter().enumerate().map(|(i, t)| format!("{}. {t}", i + 1))),
            Block::Table { head, rows } => {
                all.extend(head.clone());
                all.extend(rows.iter().flatten().cloned());
            }
            Block::Drawing(d) => all.extend(d.flat().into_iter().filter_map(|s| match s {
                Shape::Words { text, .. } => Some(text.clone()),
                _ => None,
            })),
        }
    }
    all
}

/// Each part of the report as it was placed, pieces of one part joined in the order of pages.
fn placed_texts(pages: &Pages) -> Vec<String> {
    let mut parts: Vec<(Part, String)> = Vec::new();
    for placed in pages.pages.iter().flatten() {
        let Item::Text { run, .. } = &placed.item else { continue };
        if !matches!(placed.part, Part::Title | Part::Block(..)) {
            continue;
        }
        match parts.iter_mut().find(|(part, _)| *part == placed.part) {
            Some((_, text)) => text.push_str(&run.text),
            None => parts.push((placed.part, run.text.clone())),
        }
    }
    parts.sort_by_key(|(part, _)| *part);
    parts.into_iter().map(|(_, text)| text).collect()
}

/// Tables of one sheet that have the same columns have them in the same places: front above rear. How many they are.
fn columns_shared(named: &str, pages: &Pages) -> usize {
    let tables = pages.report.blocks.iter().enumerate().filter_map(|(at, block)| match block {
        Block::Table { head, .. } if head.len() > 2 => Some((at, &head[1..])),
        _ => None,
    });
    let tables: Vec<(usize, &[String])> = tables.collect();
    let ends = |at: usize| -> Vec<f32> {
        let heads = pages.pages.iter().flatten();
        let heads = heads.filter(|p| matches!(p.part, Part::Block(block, Spot::Cell(0, _)) if block == at));
        heads.skip(1).map(|p| pages.bounds_pt(&p.item)[2]).collect()
    };
    let alike = tables.windows(2).filter(|pair| pair[0].1 == pair[1].1);
    alike
        .map(|pair| {
            let [first, second] = [ends(pair[0].0), ends(pair[1].0)];
            assert_eq!(first, second, "{named}");
            first.len()
        })
        .sum()
}

/// Every sheet of every shipped job, in both languages, with all its words.
#[test]
fn every_shipped_job_stays_inside_its_pages_on_both_papers() {
    let mut columns = 0;
    let printed = Kind::ALL.map(|kind| Paper::ALL.map(|paper| ["en", "de"].map(|language| (kind, paper, language))));
    let printed = printed.as_flattened().as_flattened();
    let all = kept::shipped().iter().flat_map(|kept| printed.iter().map(move |how| (kept, how)));
    for (kept, &(kind, paper, language)) in some(all) {
        let named = format!("{}, {}, {}, {language}", kept.name, kind.key(), paper.word());
        let pages = of_answer(kind, &kept.name, &spoken(kept, language), kept.answer(), paper);
        assert!(pages.notes.is_empty(), "{named}: {:?}", pages.notes);
        let most = match kind {
            Kind::Customer => 1,
            Kind::WorkingBrief => 2,
            _ => usize::MAX,
        };
        assert!(pages.pages.len() <= most, "{named}: {} pages", pages.pages.len());
        holds(&pages);
        apart(&pages);
        assert_eq!(solid(&placed_texts(&pages).concat()), solid(&texts(&pages.report).concat()), "{named}");
        if kind == Kind::Customer {
            columns += columns_shared(&named, &pages);
        }
    }
    assert!(columns >= 32 || !IS_WHOLE, "{columns} columns were compared");
}

/// Scales that a drawing states: "(1:5)".
fn stated(words: &str) -> Vec<f64> {
    let inside = words.split('(').filter_map(|part| part.split_once(')')?.0.split_once(':'));
    inside.filter_map(|(paper, vehicle)| Some(paper.parse::<f64>().ok()? / vehicle.parse::<f64>().ok()?)).collect()
}

/// The gaps of the customer's picture, as they lie on the paper, against those of the answer at the scale it states.
#[test]
fn the_side_view_is_to_its_scale_on_both_papers() {
    let mut compared = 0;
    let names = ["demo-orchard-van", "lighter-engine", "strut-front", "us-units-wagon", "open-two-seater"];
    for (name, paper) in names.into_iter().flat_map(|name| Paper::ALL.map(|paper| (name, paper))) {
        let pages = of_preset(Kind::Customer, name, paper);
        let Some((at, drawing)) = pages.report.blocks.iter().enumerate().find_map(|(at, block)| match block {
            Block::Drawing(drawing) => Some((at, drawing)),
            _ => None,
        }) else {
            continue;
        };
        let scales = stated(&drawing.words);
        let of_drawing = |part: Part| matches!(part, Part::Block(block, _) if block == at);
        let gaps: Vec<f64> = pages.pages[0]
            .iter()
            .filter(|placed| of_drawing(placed.part))
            .filter_map(|placed| match &placed.item {
                Item::Path { through, pen: Some(pen), is_closed: false, .. } => {
                    let is_gap = through.len() == 2 && (through[0][0] - through[1][0]).abs() < 1e-3;
                    let heavy = pen.width_pt > 1.0 && pen.dash.is_none();
                    (is_gap && heavy).then(|| f64::from(through[1][1] - through[0][1]) / f64::from(PT_PER_MM))
                }
                _ => None,
            })
            .collect();
        let answer = kept::named(name).answer();
        let rooms = |side: Side| {
            let all = State::ALL.map(|state| Some(answer.axle(side).standing.of(state).as_ref()?.stop_room?.si()));
            let all: Option<Vec<f64>> = all.into_iter().collect();
            all.filter(|all| all.iter().all(|room| *room > 0.0))
        };
        // Only axles with a gap in each of three states: which gap is whose is then known.
        let sold: Vec<Side> = Side::BOTH.into_iter().filter(|s| answer.axle(*s).plan == Plan::NewSprings).collect();
        let all: Option<Vec<Vec<f64>>> = sold.iter().map(|side| rooms(*side)).collect();
        let Some(rooms) = all.filter(|all| 3 * all.len() == gaps.len() && all.len() == scales.len()) else { continue };
        for (own, (scale, rooms)) in gaps.chunks(3).zip(scales.iter().zip(&rooms)) {
            for (gap_mm, room_m) in own.iter().zip(rooms) {
                assert!((gap_mm - 1e3 * room_m * scale).abs() < 0.02, "{name}: {gap_mm} mm for {room_m} m at {scale}");
                compared += 1;
            }
        }
    }
    assert!(compared >= 24, "{compared} gaps were compared");
}

/// A customer sees no check value; the PDF's metadata and the other sheets have it.
#[test]
fn the_check_value_is_not_for_the_customer() {
    let mut job = presets::demo();
    job.shop.language = "en".into();
    let check = format!("{:08x}", sheets::check_value(&job).expect("a check value"));
    let words = |pages: &Pages| pages.pages.iter().map(|page| pages.words(page)).collect::<String>();
    let customer = of_preset(Kind::Customer, "demo-orchard-van", Paper::A4);
    assert!(!words(&customer).contains(&check), "{}", words(&customer));
    assert!(words(&of_preset(Kind::Order, "demo-orchard-van", Paper::A4)).contains(&check));
    let bytes = pdf::write(&customer).expect("a PDF");
    assert!(bytes.windows(check.len()).any(|part| part == check.as_bytes()), "its metadata say it");
    let answer = solve(&job);
    let text = |kind| text::write(&sheets::build(kind, &job, &answer, Some(DATE)), Markup::Plain);
    assert!(!text(Kind::Customer).contains(&check) && text(Kind::Order).contains(&check));
}

/// What a general-purpose PDF library reads from the file is what the report says.
#[test]
fn a_pdf_gives_the_words_of_the_report_back() {
    let names = ["demo-orchard-van", "us-units-wagon", "overloaded-camper"];
    for (name, kind) in names.into_iter().flat_map(|n| Kind::ALL.map(|k| (n, k))) {
        let pages = of_preset(kind, name, Paper::Letter);
        let document = lopdf::Document::load_mem(&pdf::write(&pages).expect("a PDF")).expect("a readable PDF");
        assert_eq!(document.get_pages().len(), pages.pages.len());
        for (number, page) in (1..).zip(&pages.pages) {
            let read = solid(&document.extract_text(&[number]).expect("text"));
            for placed in page {
                if let Item::Text { run, .. } = &placed.item {
                    assert!(read.contains(&solid(&run.text)), "{name}, page {number}: {:?} not in {read}", run.text);
                }
            }
        }
        let root = document.catalog().expect("a catalogue");
        assert!(root.get(b"StructTreeRoot").is_ok(), "tags");
        assert_eq!(root.get(b"Lang").and_then(|l| l.as_str()).expect("a language"), b"en");
        assert!(root.get(b"Outlines").is_ok(), "{name}, {}: an outline", kind.key());
    }
}

fn tool(program: &str, arguments: &[&str], file: &Path) -> Option<(bool, String)> {
    let output = Command::new(program).args(arguments).arg(file).output().ok()?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    Some((output.status.success(), text))
}

/// With poppler's and qpdf's own programs, where they are there: the gate installs them.
#[test]
fn other_programs_find_the_pdf_clean_and_its_fonts_inside() {
    let folder = tempfile::tempdir().unwrap();
    for (name, kind) in ["demo-orchard-van", "tow-load"].into_iter().flat_map(|n| Kind::ALL.map(|k| (n, k))) {
        let path = folder.path().join("sheet.pdf");
        let pages = of_preset(kind, name, Paper::A4);
        springwright::job::file::write_bytes(&path, &pdf::write(&pages).expect("a PDF")).unwrap();
        if let Some((clean, said)) = tool("qpdf", &["--check"], &path) {
            assert!(clean && said.contains("No syntax or stream encoding errors"), "{said}");
        }
        if let Some((_, said)) = tool("pdffonts", &[], &path) {
            let fonts: Vec<&str> = said.lines().filter(|l| l.contains("NotoSans")).collect();
            assert_eq!(fonts.len(), 2, "{said}");
            // Columns "emb sub uni".
            assert!(fonts.iter().all(|l| l.contains("yes yes yes")), "{said}");
        }
        let text = folder.path().join("sheet.txt");
        let read = Command::new("pdftotext").args(["-raw", "-enc", "UTF-8"]).arg(&path).arg(&text).status();
        if read.is_ok_and(|s| s.success()) {
            let read = solid(&std::fs::read_to_string(&text).unwrap());
            for said in texts(&pages.report) {
                // A cell of several lines stands beside others: its words one by one.
                for word in said.split_whitespace() {
                    assert!(read.contains(word), "{name}: {word:?} of {said:?} is not in the PDF");
                }
            }
        }
    }
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    let both = || {
        let pages = of_preset(Kind::Full, "demo-orchard-van", Paper::A4);
        (pdf::write(&pages).expect("a PDF"), raster::png(&pages).expect("a PNG"))
    };
    assert_eq!(both(), both());
    let mut job = presets::demo();
    let before = print::state_of(&job);
    job.front.spring.rate = "77 N/mm".into();
    assert_ne!(print::state_of(&job), before);
}

fn hostile_names() -> Vec<String> {
    vec![
        "x".repeat(300),
        "wide ".repeat(200),
        "<b>&amp;</b> | * _ ` # [a](b) $x$ \\end{document} %PDF (unclosed".into(),
        "line\r\nbreak\ttab\u{0}nul\u{7}bell\u{1b}[31m".into(),
        "\u{202e}turned\u{202c} \u{2066}apart".into(),
        "אבג דהו 12 مرحبا بالعالم".into(),
        "車両 ばね 🛠️👩‍🔧 é\u{301}\u{301}\u{301}".into(),
        "\u{fffd}\u{feff}\u{200d}\u{ad}".into(),
        String::new(),
    ]
}

fn hostile_report(name: &str) -> Report {
    let row = || vec![name.to_owned(), name.to_owned(), name.to_owned()];
    let words = |at, anchor| Shape::Words { at, size_mm: 4.0, anchor, bold: true, text: name.to_owned() };
    let drawing = Drawing {
        width_mm: 150.0,
        height_mm: 40.0,
        words: name.to_owned(),
        shapes: vec![
            Shape::Circle { centre: [20.0, 20.0], radius_mm: 8.0, fill: Fill::Light, stroke: Stroke::Dashed },
            words([75.0, 20.0], Anchor::Middle),
            words([150.0, 30.0], Anchor::End),
        ],
    };
    Report {
        title: name.to_owned(),
        blocks: vec![
            Block::Heading(name.to_owned()),
            Block::Text(name.to_owned()),
            Block::Caution(name.to_owned()),
            Block::List(vec![name.to_owned(), "plain".into()]),
            Block::Steps(vec![name.to_owned(), "plain".into()]),
            Block::Table { head: row(), rows: vec![row(), row()] },
            Block::Table { head: vec!["a".into(); 9], rows: vec![vec![name.to_owned(); 9]] },
            Block::Table { head: Vec::new(), rows: Vec::new() },
            Block::Drawing(drawing),
            Block::Blanks(vec![name.to_owned(), "Signed".into()]),
        ],
    }
}

#[test]
fn hostile_names_are_safe_in_every_writer() {
    for name in some(hostile_names()) {
        let report = hostile_report(&name);
        let letterhead = Letterhead { name: name.clone(), contact: name.clone(), logo: None };
        let mut printing = Printing { letterhead, ..Printing::default() };
        printing.foot.job.clone_from(&name);
        for fit in [Fit::Pages, Fit::OnePage] {
            printing.fit = fit;
            let pages = lay_out(&report, &printing, &mut Fonts::shipped());
            holds(&pages);
            apart_but_drawings(&pages);
            let bytes = pdf::write(&pages).unwrap_or_else(|e| panic!("{name:?}: {e}"));
            lopdf::Document::load_mem(&bytes).unwrap_or_else(|e| panic!("{name:?}: {e}"));
            raster::png(&pages).unwrap_or_else(|e| panic!("{name:?}: {e}"));
        }
        let plain = text::write(&report, Markup::Plain);
        assert!(text::write(&report, Markup::Markdown).lines().count() > 5 && plain.lines().count() > 5);
    }
}

/// As `apart`, without the words of drawings, whose places the drawing says.
fn apart_but_drawings(pages: &Pages) {
    let is_drawing =
        |part: &Part| matches!(part, Part::Block(at, _) if matches!(pages.report.blocks[*at], Block::Drawing(_)));
    let mut bare = pages.clone();
    bare.pages.iter_mut().for_each(|page| page.retain(|p| !is_drawing(&p.part)));
    apart(&bare);
}

#[test]
fn what_no_font_shows_is_said_and_stays_in_the_text() {
    let report = Report { title: "Sheet".into(), blocks: vec![Block::Text("spring 車 \u{7} end".into())] };
    let pages = on(&report, Fit::Pages);
    assert_eq!(pages.notes.len(), 2, "{:?}", pages.notes);
    assert!(pages.notes[0].contains("車 (U+8ECA)"), "{:?}", pages.notes);
    assert!(pages.notes[1].contains("U+0007"), "{:?}", pages.notes);
    // The PDF still says the character, though it shows another.
    let document = lopdf::Document::load_mem(&pdf::write(&pages).expect("a PDF")).expect("readable");
    assert!(document.extract_text(&[1]).expect("text").contains('車'));
    assert!(text::write(&report, Markup::Plain).contains('車'));
}

fn paragraphs(count: usize) -> Report {
    let text = "The front of the vehicle carries more than before and sits lower on its old springs. ".repeat(3);
    let blocks = (0..count).map(|_| Block::Text(text.clone())).collect();
    Report { title: "One page".into(), blocks }
}

#[test]
fn one_page_is_made_by_smaller_steps_or_it_is_said_that_it_cannot() {
    let roomy = on(&paragraphs(19), Fit::Pages);
    assert_eq!(roomy.pages.len(), 2);
    let tight = on(&paragraphs(19), Fit::OnePage);
    assert_eq!((tight.pages.len(), tight.notes.len()), (1, 0));
    holds(&tight);
    let two = on(&paragraphs(36), Fit::TwoPages);
    assert_eq!((two.pages.len(), two.notes.len(), on(&paragraphs(36), Fit::Pages).pages.len()), (2, 0, 3));
    let never = on(&paragraphs(120), Fit::TwoPages);
    assert!(never.pages.len() > 2 && never.notes[0].contains("does not fit on two pages of A4"), "{:?}", never.notes);
    let never = on(&paragraphs(60), Fit::OnePage);
    assert!(never.pages.len() > 1 && never.notes[0].contains("does not fit on one page of A4"), "{:?}", never.notes);
}

#[test]
fn a_long_table_repeats_its_head_and_a_heading_never_stands_alone() {
    let rows: Vec<Vec<String>> =
        (0..150).map(|i| vec![format!("row {i}"), format!("{i}.5 kg"), "2 kg".into()]).collect();
    let mut blocks: Vec<Block> = (0..9).map(|_| Block::Text("filler ".repeat(60))).collect();
    blocks.push(Block::Heading("Weights".into()));
    blocks.push(Block::Table { head: vec!["What".into(), "before".into(), "after".into()], rows });
    let pages = on(&Report { title: "T".into(), blocks }, Fit::Pages);
    assert!(pages.pages.len() >= 3);
    holds(&pages);
    for page in &pages.pages {
        let cells = page.iter().any(|p| matches!(p.part, Part::Block(10, _)));
        let says =
            |word: &str| page.iter().any(|p| matches!(&p.item, Item::Text { run, .. } if run.text.trim() == word));
        assert!(!cells || (says("before") && says("after")), "the head stands above its rows");
        assert!(!says("Weights") || cells, "the heading stands with its table");
    }
    // Numbers end at the right edge of their column.
    let ends: Vec<f32> = pages
        .pages
        .iter()
        .flatten()
        .filter(|p| matches!(p.part, Part::Block(10, Spot::Cell(_, 1))))
        .map(|p| pages.bounds_pt(&p.item)[2])
        .collect();
    assert!(ends.iter().all(|e| (e - ends[0]).abs() < 0.2), "{ends:?}");
}

const SVG: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="300" height="100"><rect width="300" height="100" fill="#c33"/></svg>"##;

#[test]
fn a_logo_is_looked_at_before_it_is_taken() {
    let logo = Logo::read(SVG.as_bytes()).expect("an SVG");
    let ratio = logo.width_px() as f32 / logo.height_px() as f32;
    assert!((ratio - 3.0).abs() < 0.01, "its shape is kept: {ratio}");
    assert_eq!(Logo::read(&vec![0; MOST_BYTES + 1]), Err(LogoError::TooLarge { bytes: MOST_BYTES + 1 }));
    assert_eq!(Logo::read(b"GIF89a..."), Err(LogoError::Neither));
    assert!(matches!(Logo::read(b"<svg xmlns='http://www.w3.org/2000/svg' width='9"), Err(LogoError::Broken { .. })));
    let wide = raster::Picture { width: MOST_PX + 1, height: 1, rgb: vec![7; 3 * (MOST_PX as usize + 1)] };
    let wide = raster::encode(&wide, 150.0).expect("a PNG");
    assert_eq!(Logo::read(&wide), Err(LogoError::TooManyPixels { width: MOST_PX + 1, height: 1 }));
    let line = raster::Picture { width: 300, height: 2, rgb: vec![7; 1800] };
    let line = raster::encode(&line, 150.0).expect("a PNG");
    assert_eq!(Logo::read(&line), Err(LogoError::Stretched { width: 300, height: 2 }));
    // On the page it keeps its shape, too.
    let printing = Printing {
        letterhead: Letterhead { name: "Shop".into(), contact: String::new(), logo: Some(logo.into()) },
        ..Printing::default()
    };
    let pages = lay_out(&paragraphs(1), &printing, &mut Fonts::shipped());
    holds(&pages);
    let size = pages.pages[0].iter().find_map(|p| match p.item {
        Item::Logo { size, .. } => Some(size),
        _ => None,
    });
    let [width, height] = size.expect("the logo is placed");
    assert!((width / height - 3.0).abs() < 0.01);
    pdf::write(&pages).expect("a PDF");
    let picture = raster::page(&pages, 0, 1.0).expect("pixels");
    assert!(picture.rgb.chunks_exact(3).any(|p| p == [0xcc, 0x33, 0x33]), "its colour is printed");
}

#[test]
fn the_shop_remembers_its_names_and_logo() {
    let folder = tempfile::tempdir().unwrap();
    let shop = Shop::at(folder.path().join("lists"));
    assert_eq!(shop.names_to_print().unwrap(), springwright::job::Shop::default());
    let names = springwright::job::Shop {
        name: "Mill".into(),
        contact: "Gate 2".into(),
        fitter: "R.".into(),
        language: "de".into(),
    };
    shop.remember_names(&names).unwrap();
    shop.keep_logo(SVG.as_bytes()).unwrap();
    assert_eq!(shop.names_to_print().unwrap(), names);
    let (logo, bytes) = print::read_logo(&shop.logo().expect("kept")).expect("a logo");
    assert_eq!((bytes.as_slice(), logo), (SVG.as_bytes(), Logo::read(SVG.as_bytes()).unwrap()));
    assert_eq!(shop.names(), ["demo"], "what is printed is no parts list");
    let pixel = raster::encode(&raster::Picture { width: 1, height: 1, rgb: vec![0; 3] }, 72.0).unwrap();
    shop.keep_logo(&pixel).unwrap();
    assert!(shop.logo().unwrap().ends_with("logo.png"), "one logo at a time");
    shop.forget_logo().unwrap();
    assert_eq!(shop.logo(), None);
}

#[test]
fn a_plot_is_a_table_and_a_drawing() {
    let job = presets::demo();
    let answer = solve(&job);
    let data = picture::load_travel(&answer.axles.front, &job.units).expect("a picture");
    let csv = plot::csv(&data, &job.units).expect("a table");
    let mut lines = csv.lines();
    let head = "what,name,\"wheel travel from the reference height, + in bump (mm)\",load at one wheel (N)";
    assert_eq!(lines.next(), Some(head));
    let points: usize = data.lines.iter().map(|l| l.points.len()).sum();
    assert_eq!(lines.filter(|l| l.starts_with("line,")).count(), points);
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let first = reader.records().next().expect("a row").expect("readable");
    let [x, y] = data.lines[0].points[0];
    assert!((first[2].parse::<f64>().unwrap() * 1e-3 - x).abs() < 1e-12);
    assert!((first[3].parse::<f64>().unwrap() - y).abs() < 1e-9);

    // A range that changes along x: its two bounds at each place.
    let forces = force_speed::force_speed(&answer, Side::Front, &job.units).expect("a picture");
    let range = forces.shade.as_ref().expect("the wanted range");
    let csv = plot::csv(&forces, &job.units).expect("a table");
    assert_eq!(csv.lines().filter(|l| l.starts_with("range,")).count(), 2 * range.points.len());
    let corners = plot::drawing(&forces, &job.units).shapes.into_iter().find_map(|s| match s {
        Shape::Area { corners, fill: Fill::Light, .. } => Some(corners.len()),
        _ => None,
    });
    assert_eq!(corners, Some(2 * range.points.len()), "it is drawn");

    let drawn = plot::drawing(&data, &job.units);
    for shape in drawn.flat() {
        let places: Vec<[f32; 2]> = match shape {
            Shape::Line { through, .. } => through.clone(),
            Shape::Area { corners, .. } => corners.clone(),
            Shape::Circle { centre, .. } => vec![*centre],
            Shape::Words { at, .. } => vec![*at],
            Shape::OfState(..) => Vec::new(),
        };
        let inside = |[x, y]: &[f32; 2]| (0.0..=drawn.width_mm).contains(x) && (0.0..=drawn.height_mm).contains(y);
        assert!(places.iter().all(inside), "{shape:?}");
    }
    let pixels = raster::drawing(&drawn, 150.0, &mut Fonts::shipped()).expect("pixels");
    assert!(pixels.rgb.chunks_exact(3).filter(|p| p[0] < 80).count() > 2000, "it is not blank");
}

/// One page of a sheet, laid out and written as PDF, in at most 150 ms of a release build; an unoptimized build is given
/// ten times that.
#[test]
fn a_sheet_is_ready_before_one_can_wait_for_it() {
    let most_ms = if cfg!(debug_assertions) { 1500 } else { 150 };
    let report = paragraphs(10);
    let start = Instant::now();
    let pages = on(&report, Fit::OnePage);
    let bytes = pdf::write(&pages).expect("a PDF");
    let took = start.elapsed().as_millis();
    println!("one page: {took} ms, {} bytes", bytes.len());
    assert!(took <= most_ms, "{took} ms");
}
