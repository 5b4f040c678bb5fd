namespace RigControl.Reports.Pages;

/// <summary>How a report looks. Nothing is told by colour alone, so that it reads in black and white.</summary>
internal static class Style
{
    public const string Sheet = """
        :root { color-scheme: light dark; --ink: #1c2126; --soft: #59636d; --paper: #ffffff; --line: #d4dae0; --band: #f3f5f7; --bad: #9c1020; --good: #1d6138; }
        @media (prefers-color-scheme: dark) { :root { --ink: #e6eaee; --soft: #a3adb7; --paper: #14181c; --line: #39424b; --band: #1d2329; --bad: #ff8d92; --good: #7fd29d; } }
        * { box-sizing: border-box; }
        body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, "DejaVu Sans", sans-serif; }
        main { max-width: 60rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
        h1 { font-size: 1.6rem; line-height: 1.25; margin: 0 0 .25rem; }
        h2 { font-size: 1.1rem; margin: 2.2rem 0 .6rem; padding-bottom: .25rem; border-bottom: 2px solid var(--ink); }
        h2.side { font-size: 1.35rem; margin-top: 3.5rem; border-bottom: 0; }
        h3 { font-size: 1rem; margin: 1.2rem 0 .2rem; }
        p { margin: .4rem 0; overflow-wrap: anywhere; }
        .under { color: var(--soft); }
        .verdict { border: 2px solid var(--ink); border-left-width: .7rem; padding: .7rem 1rem; margin: 1rem 0; font-size: 1.1rem; font-weight: 600; }
        .verdict p, .verdict ul { margin: 0; }
        .verdict li { font-size: 1rem; }
        .verdict.bad { border-color: var(--bad); }
        .verdict.good { border-color: var(--good); }
        .stamp { display: inline-block; border: 2px dashed var(--ink); padding: .1rem .6rem; font-weight: 700; }
        ul { margin: .4rem 0; padding-left: 1.3rem; }
        li { margin: .25rem 0; overflow-wrap: anywhere; }
        .wide { overflow-x: auto; }
        table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; font-size: .92rem; }
        th, td { text-align: left; vertical-align: top; padding: .35rem .7rem .35rem 0; border-bottom: 1px solid var(--line); }
        thead th { border-bottom: 1px solid var(--ink); font-size: .82rem; color: var(--soft); }
        td:first-child { white-space: nowrap; }
        .long td:last-child, .prose td:last-child:not(.number) { overflow-wrap: anywhere; }
        .number { text-align: right; white-space: nowrap; }
        figure { margin: 0; background: #ffffff; border: 1px solid var(--line); border-bottom: 0; overflow-x: auto; }
        @media screen and (prefers-color-scheme: dark) { figure:not(.rows) { background: var(--paper); } figure:not(.rows) svg { filter: invert(.92) hue-rotate(180deg); } }
        figure:last-of-type { border-bottom: 1px solid var(--line); }
        figure svg { display: block; width: 100%; min-width: 34rem; height: auto; }
        figure.rows { border: 0; background: none; max-width: 46rem; }
        figure.rows svg { min-width: 0; }
        figure.rows text { fill: var(--ink); font: 13px system-ui, "DejaVu Sans", sans-serif; }
        details { margin: .5rem 0; }
        summary { cursor: pointer; }
        pre { overflow-x: auto; background: var(--band); padding: .7rem; font-size: .8rem; line-height: 1.35; }
        @media (max-width: 40rem) { table { font-size: .85rem; } th, td { padding-right: .5rem; } .prose td:first-child { white-space: normal; } main { padding-top: 1rem; } }
        @page { margin: 16mm 14mm; }
        @media print {
          :root { --ink: #000000; --soft: #333333; --paper: #ffffff; --line: #999999; --band: #ffffff; --bad: #000000; --good: #000000; }
          body { font-size: 10pt; }
          table { font-size: 9pt; }
          thead th { font-size: 8pt; }
          main { max-width: none; padding: 0; }
          th, td { padding-top: .12rem; padding-bottom: .12rem; }
          h2 { margin-top: 1.2rem; }
          h2, h3 { break-after: avoid; }
          tr, figure, .verdict { break-inside: avoid; }
          figure svg { min-width: 0; }
          thead { display: table-header-group; }
          details { display: none; }
          main::after { content: "What is folded on a screen is not printed."; display: block; margin-top: 1.2rem; color: var(--soft); }
        }

        """;
}
