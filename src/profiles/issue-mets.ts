import type { Profile } from '../model/profile.js';

// Sources of the paths below:
// [issue document] the newspaper issue document of 1905-01-31 that the METS Editorial Board keeps among its examples
//   (github.com/mets/METS-board, "closed_issues/1905013101_1.xml"): every path was seen in it unless another source stands beside the line.
// [published reel documents] 36 reel documents of published batches of the same programme: divisions, TYPE and LABEL.
// [Atlas] Beals and Bell, The Atlas of Digitised Newspapers and Metadata, 2020, doi 10.6084/m9.figshare.11560059: observed paths.
// [Danish rules] the Danish national library's newspaper rules (Appendix 2C and 2D), which state openly what the US practice leaves to custom.
// [common practice, no source] not seen in a published document; read leniently.

const EDITION_AS_NUMBER = 'relatedItem[@type=host]/part/detail[@type=edition]/number';
const REEL_NUMBER = 'relatedItem[@type=original]/identifier[@type="reel number"]';
const FRAME_NUMBER = 'relatedItem[@type=original]/identifier[@type="reel sequence number"]';
const PRESENT_ON_PAGE = 'relatedItem[@type=original]/note[@type=noteAboutReproduction]';
const SECTION = ['part/detail[@type="section label"]/number', 'part/detail[@type=sectionLabel]/number'];
/** [issue document] 1905013101_1.xml: day, edition order, and the mark of the checked copy. */
const ISSUE_DOCUMENT = ['{day}{edition}_{number}.xml', '{day}{edition}.xml'];
/** [issue document] "Title, 1905-01-31, Evening". */
const LABEL = ['{any}, {date}, {label}', '{any}, {date}'];

/** One METS document per issue with a MODS section per page, METS documents per reel, and a batch manifest. */
export const issueMets: Profile = {
  format: 'reeltally/profile/2',
  name: 'issue-mets',
  layout: 'issue-mets',
  documents: {
    // Library of Congress page of examples for its newspaper programme: BATCH.xml, BATCH_1.xml once it was checked.
    manifest: { names: ['batch.xml', 'batch_{number}.xml'], roots: [{ element: 'batch' }], needs: 'may' },
    issue: { names: ISSUE_DOCUMENT, roots: [{ element: 'mets', types: ['issue'] }], needs: 'may' },
    // A reel document has the name of its folder. [published reel documents]: TYPE ends in microfilmReel in all 36 that were looked at.
    reel: {
      names: ['{folder}_{number}.xml', '{folder}.xml'],
      roots: [{ element: 'mets', types: ['microfilmReel', 'reel'] }],
      needs: 'may',
    },
    page: { names: [] },
    absentPage: { names: [] },
  },
  divisions: {
    issue: { types: ['issue'] }, // [issue document]
    section: { types: ['section'] }, // common practice, no source
    page: { types: ['page'] }, // [issue document]
    reel: { types: ['reel'] }, // [published reel documents]
    target: { types: ['target'] }, // [published reel documents]
    scannerTargets: { types: ['techtargetreel'] }, // [published reel documents]
  },
  pagesOfIssue: 'below',
  facts: {
    issue: {
      titleId: {
        sources: ['relatedItem[@type=host]/identifier[@type=lccn]', 'relatedItem[@type=host]/identifier[not(@type)]'],
        // [public listing] of the batch wyu_ellison (dataset davanstrien/chrono): sn92066979/0051701008A/1921100101.
        copies: [
          { in: 'manifest', path: '@lccn' },
          { in: 'folder', up: 3, pattern: '{lccn}' },
        ],
        needs: 'must',
      },
      date: {
        // [Danish rules] 2D-4 and 2D-5: the date without qualifier is the true one, the questionable one is what is printed.
        sources: ['originInfo/dateIssued[@encoding=iso8601][not(@qualifier)]', 'originInfo/dateIssued[not(@qualifier)]'],
        copies: [
          { in: 'manifest', path: '@issueDate' },
          { in: 'folder', up: 1, pattern: '{day}{edition}' },
          { in: 'document-name', pattern: ISSUE_DOCUMENT },
          { in: 'document', path: '@LABEL', pattern: LABEL },
        ],
        needs: 'must',
      },
      datePrinted: { sources: ['originInfo/dateIssued[@qualifier=questionable]'], movedBy: 'printedDate' },
      edition: {
        sources: [EDITION_AS_NUMBER],
        copies: [
          { in: 'manifest', path: '@editionOrder' },
          { in: 'folder', up: 1, pattern: '{day}{edition}' },
          { in: 'document-name', pattern: ISSUE_DOCUMENT },
        ],
        needs: 'must',
      },
      editionLabel: {
        sources: ['relatedItem[@type=host]/part/detail[@type=edition]/caption'],
        copies: [{ in: 'document', path: '@LABEL', pattern: LABEL }],
        needs: 'must',
      },
      volume: { sources: ['relatedItem[@type=host]/part/detail[@type=volume]/number'], needs: 'must' }, // [Atlas]
      issueNumber: { sources: ['relatedItem[@type=host]/part/detail[@type=issue]/number'], needs: 'must' },
      present: { sources: ['note[@type=noteAboutReproduction]'], movedBy: 'absentIssues' },
      presentNote: { sources: ['note[@type=noteAboutReproduction]/@displayLabel'] }, // [Danish rules] 2D-7
    },
    section: {
      // [Danish rules] 2C-1 in its camel-case spelling; the spelling with a blank is common practice, no source.
      section: { sources: SECTION },
    },
    page: {
      section: { sources: SECTION, needs: 'must' },
      page: { sources: ['part/detail[@type="page number"]/number', 'part/detail[@type=pageNumber]/number'], movedBy: 'unnumberedPage' },
      order: { sources: ['part/extent[@unit=pages]/start'], needs: 'must' },
      reel: { sources: [REEL_NUMBER], needs: 'must' },
      frame: {
        sources: [FRAME_NUMBER],
        // [issue document] reel sequence number 683 is 0683.tif, 0683.jp2, 0683.pdf and 0683.xml; 0016_1.xml is common practice.
        copies: [{ in: 'file-name', pattern: ['{frame}.{any}', '{frame}_{number}.{any}'] }],
        needs: 'must',
      },
      present: { sources: ['note[@type=noteAboutReproduction]', PRESENT_ON_PAGE], movedBy: 'absentPages' },
      presentNote: { sources: ['note[@type=noteAboutReproduction]/@displayLabel', `${PRESENT_ON_PAGE}/@displayLabel`] },
    },
    target: {
      // [published reel documents] as for a page.
      reel: { sources: [REEL_NUMBER] },
      frame: { sources: [FRAME_NUMBER], needs: 'must' },
    },
    // [published reel documents] the scanner's own targets are not on the film and have no number on it.
    scannerTarget: { frame: { sources: [FRAME_NUMBER], needs: 'must-not' } },
    reel: {
      reel: {
        // [published reel documents] the number stands in the LABEL and the sections of the targets, the reel has no section of its own. The
        // names of file and folder are places: 11 characters there can be 9 digits in the sections [issue document], so they are not compared.
        sources: [
          REEL_NUMBER,
          'identifier[@type="reel number"]',
          { in: 'targets', path: REEL_NUMBER },
          { in: 'document', path: '@LABEL', pattern: '{reel}' },
          { in: 'manifest', path: '@reelNumber' },
          { in: 'document-name', pattern: ['{reel}_{number}.xml', '{reel}.xml'] },
          { in: 'folder', up: 1, pattern: '{reel}' },
        ],
        copies: [
          { in: 'document', path: '@LABEL', pattern: '{reel}' },
          { in: 'manifest', path: '@reelNumber' },
        ],
        needs: 'must',
      },
    },
  },
  // Element names seen in public programs that read reel documents; all are information only.
  reelFacts: [
    'titles',
    'startDate',
    'endDate',
    'position',
    'reductionRatio',
    'captureResolutionOriginal',
    'captureResolutionFilm',
    'dateMicrofilmCreated',
    'looseLeavesFlag',
    'boundVolumeFlag',
    'numberOfResolutionTargets',
    'resolutionOfMaster',
    'densityReadingMaster',
    'averageDensityMaster',
    'dminMaster',
  ],
  files: {
    // [issue document] four files a page; what is not in this copy of the batch is not looked for.
    uses: {
      master: { needs: 'where-held', is: 'image' },
      service: { needs: 'where-held', is: 'image' },
      derivative: { needs: 'where-held', is: 'other' },
      ocr: { needs: 'where-held', is: 'text' },
    },
    otherUses: 'where-held',
    ignored: [],
    companions: [],
  },
  folders: {
    unmatched: [],
    unmatchedFile: [],
    target: [],
    targetFile: [],
    issue: [],
  },
  present: [
    { text: 'Present', present: true, published: 'yes' }, // [issue document]
    { text: 'Not digitized, published', present: false, published: 'yes' }, // shown by the programme's public site for lacking pages
    { text: 'Not digitized, not published', present: false, published: 'no' }, // [Danish rules] 2C-9, 2D-6
    { text: 'Not digitized, publication unknown', present: false, published: 'unknown' }, // [Danish rules] 2C-9, 2D-6
  ],
  // [issue document] 9 digits in the MODS section, 11 characters as a folder name: the folder is a place, not the number.
  reelNumber: { supplierSuffix: null },
  laterCopies: true, // [issue document] 1905013101_1.xml
  titleKeys: {},
  carrier: 'film',
  altoImageNumber: 'frame', // [Atlas]
  policies: { pageNumber: 'printed', unnumberedPage: 'omit' }, // [issue document] page 1 has no number, pages 2 to 12 have
  severityCaps: {},
};
