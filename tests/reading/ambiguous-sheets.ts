/** Invented sheets in which the meaning of columns and words is open, and further questions hang on it. By the name of the file. */
export const AMBIGUOUS: Readonly<Record<string, string>> = {
  'number-page.csv': `No. | Paper | Day | Number | Remark
    1 | Beacon | 4/5/78 | 1 | p. 2 missing
    5 | Beacon | 4/12/78 | 2 |
    9 | Beacon | 4/19/78 | 3 | torn`,
  'pages-twice.csv': `First frame | Title | Date | Page count | Pages filmed | Held back
    1 | sn90000001 | 1899-01-04 | 8 | 8 |
    9 | sn90000001 | 1899-01-05 | 8 | 9 | p. 5
    18 | sn90000001 | 1899-01-06 | 8 | 8 |`,
  'words-in-pages.csv': `Start | Paper | Issued | Contents | Stat
    1 | Beacon | 1899-01-04 | 4 quire recto | T
    5 | Beacon | 1899-01-05 | 3 sheets, verso folded | P
    9 | Beacon | 1899-01-06 | 4 pp, p. 3 wanting | P`,
  'words-after-words.csv': `First frame | Title | Date | Pages
    1 | sn90000001 | 1899-01-04 | 1-4 quire, 5 verso
    6 | sn90000001 | 1899-01-05 | 1-3 octavo; 4 wormed
    10 | sn90000001 | 1899-01-06 | 1-4`,
  'kinds.csv': `Image | Paper | Day | Label | Stat | Dup
    1 | | | | start |
    2 | Beacon | 4.1.1899 | 1 | p |
    3 | Beacon | 4.1.1899 | 2 | p |
    4 | Beacon | 4.1.1899 | 2 | missing? | D
    5 | | | | ? |`,
  'ohne-nummern.csv': `Zeitung | Datum | Seite | Art | Was
    Bote | 4.1.1899 | 1 | S | gut
    Bote | 4.1.1899 | 2 | S | Beilage
    Bote | | 3 | L | fehlt
    „ | 5.1.1899 | 1 | S | `,
  'counts-or-frames.csv': `Titel | Erschienen | Bilder | Seiten | Bemerkung
    zdb1 | 4.1.1899 | 4 | 4 | S. 4 fehlt
    zdb1 | 5.1.1899 | 4 | 4 |
    zdb1 | 6.1.1899 | 6 | 6 | Dublette`,
  'headless.csv': `Frame | | Date | Page | | Note
    1 | Beacon | 1899-01-04 | 1 | 1 | blank
    2 | Beacon | 1899-01-04 | 2 | 1 | retake
    3 | Beacon | 1899-01-04 | 2 | 2 | duplicate
    4 | | | | | Leader`,
  'two-days.csv': `Vue | Journal | Date | Parution | Page | Nature
    1 | Le Phare | 4/1/99 | 77 | 1 | page
    2 | Le Phare | 4/1/99 | 77 | 2 | vue blanche
    3 | Le Phare | 11/1/99 | 78 | 1 | doublon
    4 | Le Phare | 11/1/99 | 78 | 1 | page`,
};
