/** Invented sheets with the notes that English, German and French coordinators write beside their rows: common practice, no source. By the name of the file. */
export const NOTED: Readonly<Record<string, string>> = {
  'reel-21.csv': `Reel | Frame | Title | Date | Page | Notes
    21 | 1 | | | | Start target
    21 | 2 | sn90000001 | 1878-05-04 | 1 | Masthead says 4 May 1877
    21 | 3 | sn90000001 | 1878-05-04 | 2 | torn upper left
    21 | 4 | sn90000001 | 1878-05-04 | 2 | Retake because out of focus
    21 | 5 | sn90000001 | 1878-05-04 | 3 | mispaged 5
    21 | 6 | sn90000001 | 1878-05-04 | 4 | blank
    21 | 7 | | | | blank between issues
    21 | 8 | sn90000001 | 1878-05-11 | 1 | 2nd edition; Vol. 8 no. 283
    21 | 9 | sn90000001 | 1878-05-11 | 2 | Section B
    21 | 10 | sn90000001 | 1878-05-11 | 3 | Skip - fingers in the picture
    21 | 11 | sn90000001 | 1878-05-11 | 3 | good copy; from reel 12
    21 | 12 | sn90000001 | 1878-05-11 | 4 | do not scan
    21 | | sn90000001 | 1878-05-18 | | no issue, printer ill
    21 | 13 | | | | End target`,
  'reel-22.csv': `First frame | Title | Date | No. of pages | Issue no. | Remarks
    1 | The Beacon | 5/4/78 | 4 | 101 | p. 2 mispaged as 3; p.4 torn
    5 | The Beacon | 5/11/78 | 4 | 102 | page 4 missing
    8 | The Beacon | 5/18/78 | 4 | 103 | Not to be delivered (other branch)
    12 | " | 5/25/78 | 4 | 104 | Misdated 24 May, issue wrongly numbered 140
    16 | " | 6/1/78 | 4 | 105 | p. 1 filmed twice
    21 | " | 6/8/78 | 4 | 106 | pages 2 and 3 transposed; Evening edition
    | " | 6/15/78 | | | not published - holiday`,
  'rolle-7.csv': `Rolle | Bild | Zeitung | Datum | Seite | Bemerkungen
    7 | 1 | | | | Titelblatt
    7 | 2 | zdb123 | 4.5.1878 | 1 | Kopf: falsch datiert 3. Mai
    7 | 3 | zdb123 | 4.5.1878 | 2 | als S. 3 gedruckt
    7 | 4 | zdb123 | | 3 | oben eingerissen
    7 | 5 | zdb123 | | 4 | Leerseite
    7 | 6 | zdb123 | | 4 | Dublette
    7 | 7 | zdb123 | 18.5.1878 | 1 | 2. Ausgabe
    7 | 8 | zdb123 | 18.5.1878 | 2 | auf dem Kopf stehend
    7 | 9 | zdb123 | 18.5.1878 | 2 | Neuaufnahme von Bild 8
    7 | 10 | zdb123 | 18.5.1878 | 3 | nicht scannen
    7 | 11 | zdb123 | 18.5.1878 | 4 | S. 3 unscharf`,
  'rolle-8.csv': `Bild ab | Zeitung | Datum | Seiten | Anmerkung
    1 | zdb123 | 4.5.1878 | 4 | S. 3 fehlt
    4 | zdb123 | 11.5.1878 | 4 | Abendausgabe
    8 | zdb123 | 18.5.1878 | 4 | S. 2 doppelt verfilmt
    13 | zdb123 | 25.5.1878 | 4 | datiert 1877
    | zdb123 | 1.6.1878 | | nicht erschienen
    17 | zdb123 | 8.6.1878 | 4 | S. 1 als S. 5 gezählt, S. 4 leer`,
  'rolle-9.csv': `Bild ab | Zeitung | Datum | Seiten | Nr. | Anmerkung
    1 | zdb123 | 4.5.1878 | 1-4, mit Beilage 2 S. | 77 (statt 76) |
    7 | zdb123 | 11.5.1878 | 1-2,3-4 | 77 |
    9 | zdb123 | 18.5.1878 | 1-4 | 78 | mit 2 S. Beilage
    15 | zdb123 | 25.5.1878 | A1-A2 B1-B2 | 79 |
    19 | zdb123 | 1.6.1878 | 1-2,3-4 | 80 | S. 5-6 Beilage`,
  'rolle-10.csv': `Bild | Zeitung | Datum | Seite | Art | Dublette | Neuaufnahme
    1 | | | | Anfangstestbild | |
    2 | zdb123 | 4.5.1878 | 1 | Seite | |
    3 | zdb123 | 4.5.1878 | 1 | Seite | D |
    4 | zdb123 | 4.5.1878 | 2 | Seite | |
    5 | zdb123 | 4.5.1878 | 2 | Seite | | N
    nicht verfilmt | zdb123 | 4.5.1878 | 3 | Seite | |
    6 | zdb123 | 4.5.1878 | S1 | Beilage | |`,
  'bobine-3.csv': `Bobine | Vue | Journal | Date | Page | Remarques | Vu par
    3 | 1 | | | | Mire | AP
    3 | 2 | bnf1 | 4 mai 1878 | 1 | datée du 3 mai 1878 | AP
    3 | 3 | bnf1 | 4 mai 1878 | 2 | déchirée en bas | AP
    3 | 4 | bnf1 | 4 mai 1878 | 3 i.e. 4 | numérotée 5 | AP
    3 | 5 | bnf1 | 11 mai 1878 | 1 | édition du soir | BR
    3 | 6 | bnf1 | 11 mai 1878 | 2 | ne pas numériser | BR
    3 | 7 | bnf1 | 11 mai 1878 | 2 | reprise de la vue 6 | BR
    3 | 8 | bnf1 | 11 mai 1878 | 3 | à l’envers | BR
    3 | 9 | bnf1 | 18 mai 1878 | 1 | doublon de la vue 5 | BR`,
  'bobine-4.csv': `Vue début | Journal | Date de parution | Nb de pages | Remarque
    1 | bnf1 | 04/05/1878 | 3 | p. 4 absente
    4 | bnf1 | 18/05/1878 | 4 | ne pas livrer
    8 | bnf1 | 25/05/1878 | 4 | p. 1 floue; p. 2 imprimée 3`,
};
