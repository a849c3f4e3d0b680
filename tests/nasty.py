"""Names that a file, a spreadsheet, a drawing or a page could take for something else. Invented."""

NASTY_NAMES = (
    "=cmd|'/C calc'!A0",
    "+1 \"quoted\" 'and'",
    "@SUM(1)\r\nsecond line\ttab",
    "<b>&amp;</b> <!-- ]]> -->",
    "../../up\\and:away|?*",
    "50 %% %%d ^J {\\P} %%%",
    "Ö 棚 🪵 \u202eright to left",
)
