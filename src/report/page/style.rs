//! What every page looks like: one style sheet, for a desk, a phone and paper, in light and in dark.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::report::clean_text;
use crate::report::svg::style_sheet;

const COLOURS: &str = "\
:root{color-scheme:light dark;--ink:#17202b;--soft:#515c69;--rule:#d9dfe5;--paper:#fff;--tint:#f3f6f8;--link:#17627f;\
--good:#2583a8;--open:#b9c3cc;--bad:#98300f;--good-tint:#e6f2f7}\
@media screen and (prefers-color-scheme:dark){:root{--ink:#eef2f6;--soft:#a7b2be;--rule:#2b343e;--paper:#12171d;\
--tint:#1a2129;--link:#7cc4e2;--good:#4aa5cb;--open:#5b6875;--bad:#ffb494;--good-tint:#17303d}}";

const TEXT: &str = "\
*{box-sizing:border-box}\
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}\
body{margin:0 auto;max-width:74rem;padding:2rem 1.25rem 4rem;background:var(--paper);color:var(--ink);\
font:1rem/1.55 system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans',sans-serif;overflow-wrap:anywhere}\
h1,h2,h3{font-family:'Iowan Old Style','Palatino Linotype',Palatino,'Source Serif 4',Georgia,serif;font-weight:600;\
line-height:1.2;text-wrap:balance}\
h1{font-size:clamp(1.8rem,1.2rem + 2.6vw,2.9rem);margin:.2rem 0 .6rem;letter-spacing:-.01em}\
h2{font-size:1.6rem;margin:0 0 .5rem}\
h3{font-size:1.12rem;margin:1.75rem 0 .4rem}\
p{margin:.5rem 0;max-width:46rem}ul,ol{padding-left:1.2rem;max-width:46rem}li{margin:.3rem 0}\
a{color:var(--link);text-underline-offset:.15em}\
section{margin-top:3.5rem;padding-top:1.5rem;border-top:2px solid var(--ink)}\
.line{color:var(--soft);display:flex;flex-wrap:wrap;gap:.2rem 1.5rem;margin:0;max-width:none;font-size:.95rem}\
.note{color:var(--soft);font-size:.92em}.lead{font-size:1.2rem;line-height:1.45}\
code,.code{font-family:ui-monospace,'SFMono-Regular',Menlo,Consolas,monospace;font-size:.85em}\
:target{scroll-margin-top:1rem}:focus-visible{outline:3px solid var(--good);outline-offset:2px}";

const FRONT: &str = "\
.share{display:flex;height:1rem;margin:1.5rem 0 .6rem;gap:2px}.share>span{min-width:3px}\
.accepted{background:var(--good)}.undecided{background:var(--paper);border:2px solid var(--soft)}\
.rejected{background:var(--open)}\
.counts{display:flex;flex-wrap:wrap;gap:.4rem 2rem;list-style:none;padding:0;margin:0;max-width:none}\
.counts b{font-size:1.5rem;font-variant-numeric:lining-nums;margin-right:.35rem}\
.counts i{display:inline-block;width:.8rem;height:.8rem;margin-right:.45rem}\
nav ul{list-style:none;padding:0;margin:1.75rem 0 0;display:flex;flex-wrap:wrap;gap:.35rem 1.4rem;max-width:none}\
.words{columns:2 24rem;column-gap:3rem}.words p{margin:0 0 .8rem;break-inside:avoid}";

const TABLES: &str = "\
.scroll{overflow-x:auto;margin:1rem 0}\
table{border-collapse:collapse;font-variant-numeric:tabular-nums lining-nums;width:100%}\
caption{text-align:left;font-weight:650;padding:0 0 .3rem}\
th,td{padding:.4rem .9rem .4rem 0;text-align:right;border-bottom:1px solid var(--rule);vertical-align:top}\
th:last-child,td:last-child{padding-right:0}\
thead th{vertical-align:bottom;overflow-wrap:normal;font-size:.82rem;line-height:1.3;font-weight:600;color:var(--soft);border-color:var(--ink)}\
.left,tbody th{text-align:left;font-weight:400}.list tbody th{font-weight:650;width:26%;min-width:9rem}\
.list td,.list .rank{white-space:nowrap}.list .rank{width:1%;color:var(--soft)}\
.best{font-weight:750;color:var(--link)}\
.figures td{white-space:nowrap;font-weight:600}.figures td span{font-weight:400;color:var(--soft)}\
.figures th{padding-right:1rem;line-height:1.35}.figures table{font-size:.92rem}.figures table+table{margin-top:1.5rem}\
.figures th,.figures td{padding-top:.28rem;padding-bottom:.28rem}\
.plain td{text-align:left}\
@media screen and (max-width:40rem){.plain table,.plain tbody,.plain tr,.plain th,.plain td{display:block;width:auto;border:0;\
padding:.1rem 0}.plain thead{display:none}.plain tr{border-bottom:1px solid var(--rule);padding:.5rem 0}\
.plain tbody th{font-weight:650}.plain td:last-child:not(:nth-child(2)){color:var(--soft);font-size:.92em}\
.list tbody th{position:sticky;left:0;background:var(--paper);min-width:7.5rem}}\
.plain th{min-width:9rem}.plain{max-width:64rem}.plain table{font-size:.94rem}";

const UNITS: &str = "\
.verdict{font-weight:650}.verdict.yes{color:var(--link)}.verdict.no{color:var(--bad)}\
.sheet{display:grid;gap:1.5rem 3rem;margin-top:1rem}\
@media (min-width:68rem){.sheet{grid-template-columns:minmax(0,45rem) minmax(0,1fr)}}\
.charts{display:grid;gap:2.25rem;align-content:start}.charts>*{min-width:0}\
.charts.narrow{grid-template-columns:repeat(auto-fill,minmax(min(100%,20rem),1fr))}\
.facts{color:var(--soft);max-width:none}\
.why{border-left:4px solid var(--rule);padding:.1rem 0 .1rem 1rem;margin:.9rem 0;max-width:52rem}\
.why p{margin:.2rem 0}.why.no{border-color:var(--bad)}.why.yes{border-color:var(--good)}\
details{margin:1rem 0;border-top:1px solid var(--rule);padding-top:.75rem}\
summary{cursor:pointer;font-weight:650;max-width:52rem}summary .note{font-weight:400}\
.group{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,30rem),1fr));gap:0 2.5rem;margin-top:.75rem}\
.group>div{border-top:1px solid var(--rule);padding:.6rem 0;font-size:.94rem}.group p{margin:.2rem 0}\
.group h3{margin:0;font-size:1.02rem}\
.remedy::before{content:'\\2192\\00a0';color:var(--soft)}\
.cautions{background:var(--tint);padding:1rem 1.25rem;max-width:52rem;border-left:4px solid var(--ink)}\
.cautions ul{margin:0}.prints td{font-size:.8rem;overflow-wrap:anywhere}\
@media screen{section.unit{content-visibility:auto;contain-intrinsic-size:auto 70rem}\
.group>div{content-visibility:auto;contain-intrinsic-size:auto 10rem}}";

const LESSON: &str = "\
.fill{color:var(--soft);display:flex;gap:2rem;flex-wrap:wrap;max-width:none}\
.fill span{flex:1 1 12rem;border-bottom:1px solid var(--soft);padding-bottom:.2rem}\
.questions{list-style:none;padding:0;max-width:none;counter-reset:question}\
.questions>li{margin:2rem 0;break-inside:avoid}\
.questions h3{margin-top:0}\
.room{height:7.5rem;margin-top:.75rem;background:repeating-linear-gradient(transparent 0 calc(2.5rem - 1px),\
var(--rule) calc(2.5rem - 1px) 2.5rem);print-color-adjust:exact;-webkit-print-color-adjust:exact}\
.math{font-family:ui-monospace,'SFMono-Regular',Menlo,Consolas,monospace;font-size:.88rem;background:var(--tint);\
border-left:3px solid var(--rule);padding:.5rem .75rem;margin:.35rem 0;white-space:pre-wrap;max-width:52rem}\
.math b{font-weight:700}.math .input{white-space:nowrap}\
.answer{background:var(--good-tint);border-left:4px solid var(--good);padding:.5rem 1rem;max-width:52rem}\
.step{margin:1rem 0;break-inside:avoid}.step h4{margin:0;font:inherit;font-weight:600}\
.key{font-size:.8rem;color:var(--soft);font-weight:400;white-space:nowrap}\
dt{font-weight:650}dd{margin:0 0 .5rem}";

const PAPER: &str = "\
@page{margin:11mm 14mm}\
@media print{:root{color-scheme:light;--ink:#000;--soft:#3a3f45;--rule:#c4cad0;--link:#000;--tint:#f5f5f5}\
html{font-size:9.5pt}body{max-width:none;padding:0;line-height:1.4}h1{font-size:23pt}h2{font-size:15pt}h3{font-size:11pt}\
.share{margin:.8rem 0 .4rem}\
section{margin-top:1.6rem;padding-top:.8rem}section.unit,section.page{break-before:page;border-top:0;margin-top:0;padding-top:0}\
h2,h3,h4,summary,caption,thead{break-after:avoid}tr,.why,.group>div,.cautions{break-inside:avoid}\
nav,.screen{display:none}a{text-decoration:none}.scroll{overflow:visible}\
.share,.share *,.counts i,.cautions,.math,.answer,.why{print-color-adjust:exact;-webkit-print-color-adjust:exact}\
.list table{font-size:8.5pt}.list th,.list td{padding-right:.5rem}.list tbody th{min-width:6.5rem}\
.words{columns:2;column-gap:2rem}.plain{max-width:none}.plain th,.plain td{padding-top:.22rem;padding-bottom:.22rem;line-height:1.3}.words p{margin-bottom:.5rem}.plain table,.group>div{font-size:8.5pt}.figures table{font-size:7.3pt}.figures th{line-height:1.2;padding-right:.4rem}.compare .chart-wide{max-width:46rem}\
.sheet{display:block}.charts,.charts.narrow{grid-template-columns:21rem 21rem;justify-content:space-around;gap:.5rem 1.5rem}\
.charts.draw{grid-template-columns:minmax(0,44rem)}.unit .chart-pair>.chart-wide{display:none}.unit .chart-pair>.chart-narrow{display:block;max-width:none}\
.sheet{margin-top:.3rem}.unit h3{margin:.6rem 0 .1rem}.unit>p,.unit>ul{margin:.15rem 0;font-size:8pt;max-width:none}.unit>ul>li{margin:.05rem 0}\
.figures{columns:3;column-gap:1.6rem;margin-top:.4rem}.figures table{margin:0 0 .7rem;break-inside:avoid}\
.figures table+table{margin-top:0}.figures th,.figures td{padding-top:.1rem;padding-bottom:.1rem;line-height:1.2}\
.group{grid-template-columns:1fr 1fr}details{margin:.7rem 0}summary{list-style:none}}";

/// What the `generator` of a page says: its kind and this program, so that it can be told from other files.
#[must_use]
fn generator(kind: &str) -> String {
    format!(
        "{} {} {kind}",
        env!("CARGO_PKG_NAME"),
        env!("CARGO_PKG_VERSION")
    )
}

/// A whole page around its body. Makes no request and runs no script.
#[must_use]
pub fn page(title: &str, kind: &str, body: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="generator" content=(generator(kind));
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (clean_text(title, 200)) }
                style {
                    (PreEscaped(COLOURS)) (PreEscaped(TEXT)) (PreEscaped(FRONT)) (PreEscaped(TABLES))
                    (PreEscaped(UNITS)) (PreEscaped(LESSON)) (PreEscaped(style_sheet())) (PreEscaped(PAPER))
                }
            }
            body { (body) }
        }
    };
    page.into_string()
}
