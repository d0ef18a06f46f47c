import type { Profile } from '../model/profile.js';

// Sources of the paths below:
// [2C] [2D] [2E] [2F] the Danish State and University Library, appendices on page, edition and film metadata and on delivery and
//   naming, of its call for the digitisation of newspapers (published; numbers such as 2C-5 are its rows).
// [rule list] the library's published machine-readable rules for the same delivery.
// [excerpt] seen in an excerpt of the same documents only: read leniently.
// [by likeness] not seen; the path of the US issue document, on which these appendices are modelled.

const UNIFORM_TITLE = 'titleInfo[@type=uniform][@authority="Statens Avissamling"]/title';
/** [2D-1] prints the attributes on `title`, where MODS does not allow them. */
const UNIFORM_TITLE_AS_PRINTED = 'titleInfo/title[@type=uniform][@authority="Statens Avissamling"]';
const PRESENT_ON_PAGE = 'relatedItem[@type=original]/note[@type=noteAboutReproduction]';

const EDITION_FOLDER = '{date}-{edition}'; // [2F]
const EDITION_DOCUMENT = '{title}-{date}-{edition}.edition.xml'; // [2F] [rule list]
const PAGE_DOCUMENT = '{title}-{date}-{edition}-{frame}.mods.xml'; // [2F] [rule list]
const ABSENT_PAGE_DOCUMENT = '{title}-{date}-{edition}-x{number}.mods.xml'; // [excerpt]
const PAGE_NAMES = [PAGE_DOCUMENT, ABSENT_PAGE_DOCUMENT];
const FILM_DOCUMENT = '{title}-{reel}.film.xml'; // [rule list]
const IMAGE = '{title}-{date}-{edition}-{frame}.{any}'; // [2F]

/** One MODS document per page and per edition, one film document, folders per film and edition. */
export const pageMods: Profile = {
  format: 'reeltally/profile/2',
  name: 'page-mods',
  layout: 'page-mods',
  documents: {
    manifest: { names: [] },
    issue: { names: [EDITION_DOCUMENT], needs: 'must' },
    reel: { names: [FILM_DOCUMENT], needs: 'may' },
    page: { names: [PAGE_DOCUMENT] },
    absentPage: { names: [ABSENT_PAGE_DOCUMENT] },
  },
  // This layout has no structMap.
  divisions: {
    issue: { types: [] },
    section: { types: [] },
    page: { types: [] },
    reel: { types: [] },
    target: { types: [] },
    scannerTargets: { types: [] },
  },
  pagesOfIssue: 'document',
  facts: {
    issue: {
      titleId: {
        sources: [UNIFORM_TITLE, UNIFORM_TITLE_AS_PRINTED, 'titleInfo[@type=uniform]/title'], // [2D-1]
        copies: [{ in: 'document-name', pattern: EDITION_DOCUMENT }],
        needs: 'must',
      },
      date: {
        sources: ['originInfo/dateIssued[@encoding=iso8601][not(@qualifier)]', 'originInfo/dateIssued[not(@qualifier)]'], // [2D-4]
        copies: [
          { in: 'folder', up: 1, pattern: EDITION_FOLDER },
          { in: 'document-name', pattern: EDITION_DOCUMENT },
        ],
        needs: 'must',
      },
      datePrinted: { sources: ['originInfo/dateIssued[@qualifier=questionable]'], movedBy: 'printedDate' }, // [2D-5]
      edition: {
        sources: ['relatedItem[@type=host]/part/detail[@type=edition]/number', 'part/detail[@type=edition]/number'], // [by likeness]
        copies: [
          { in: 'folder', up: 1, pattern: EDITION_FOLDER },
          { in: 'document-name', pattern: EDITION_DOCUMENT },
        ],
        needs: 'must',
      },
      editionLabel: {
        sources: ['relatedItem[@type=host]/part/detail[@type=edition]/caption', 'part/detail[@type=edition]/caption'], // [by likeness]
        needs: 'must',
      },
      volume: { sources: ['relatedItem[@type=host]/part/detail[@type=volume]/number', 'part/detail[@type=volume]/number'], needs: 'must' }, // [by likeness]
      issueNumber: {
        sources: ['relatedItem[@type=host]/part/detail[@type=issue]/number', 'part/detail[@type=issue]/number'],
        needs: 'must',
      }, // [by likeness]
      present: { sources: ['note[@type=noteAboutReproduction]', 'note[not(@type)]'], movedBy: 'absentIssues' }, // [2D-6]
      presentNote: { sources: ['note[@type=noteAboutReproduction]/@displayLabel', 'note[not(@type)]/@displayLabel'] }, // [2D-7]
    },
    section: {},
    page: {
      titleId: { sources: [`relatedItem[@type=host]/${UNIFORM_TITLE}`, `relatedItem[@type=host]/${UNIFORM_TITLE_AS_PRINTED}`] }, // [2C-11, excerpt]
      // [2F] The names of pages repeat date and edition.
      date: { sources: [{ in: 'folder', up: 1, pattern: EDITION_FOLDER }], copies: [{ in: 'document-name', pattern: PAGE_NAMES }] },
      edition: { sources: [{ in: 'folder', up: 1, pattern: EDITION_FOLDER }], copies: [{ in: 'document-name', pattern: PAGE_NAMES }] },
      section: { sources: ['part/detail[@type=sectionLabel]/number', 'part/detail[@type="section label"]/number'], needs: 'must' }, // [2C-1]
      order: { sources: ['part/extent[@unit=pages]/start'], needs: 'must' }, // [2C-2]
      page: { sources: ['part/detail[@type=pageNumber]/number', 'part/detail[@type="page number"]/number'], movedBy: 'unnumberedPage' }, // [2C-3]
      reel: {
        sources: ['relatedItem[@type=original]/identifier[@type="reel number"]'], // [2C-4]
        copies: [{ in: 'folder', up: 2, pattern: '{this}' }], // [2F]
        needs: 'must',
      },
      frame: {
        sources: ['relatedItem[@type=original]/identifier[@type="reel sequence number"]'], // [2C-5]
        copies: [
          { in: 'document-name', pattern: PAGE_DOCUMENT },
          { in: 'file-name', pattern: IMAGE },
        ],
        needs: 'must',
      },
      present: { sources: [PRESENT_ON_PAGE, 'note[@type=noteAboutReproduction]'], movedBy: 'absentPages' }, // [2C-9]
      presentNote: { sources: [`${PRESENT_ON_PAGE}/@displayLabel`, 'note[@type=noteAboutReproduction]/@displayLabel'] }, // [2C-10]
    },
    target: {},
    scannerTarget: {},
    reel: {
      reel: {
        sources: ['batchIdFilmId'], // [2E-4]
        copies: [{ in: 'document-name', pattern: FILM_DOCUMENT }],
        needs: 'must',
      },
    },
  },
  // [2E]; all but the reel number and the dates are information only.
  reelFacts: [
    'titles',
    'startDate',
    'endDate',
    'numberOfPictures',
    'reductionRatio',
    'captureResolutionOriginal',
    'captureResolutionFilm',
    'dateMicrofilmCreated',
    'looseLeavesFlag',
    'boundVolumeFlag',
    'resolutionOfNegative',
    'resolutionCommentNegative',
    'resolutionOfDuplicateNegative',
    'densityReadingNegative',
    'averageDensityNegative',
    'dminNegative',
  ],
  files: {
    // [rule list] Files of a page have its name and one of these endings.
    uses: {
      image: { needs: 'where-held', is: 'image' },
      text: { needs: 'where-held', is: 'text' },
      'image metadata': { needs: 'where-held', is: 'other' },
    },
    otherUses: 'may',
    ignored: [],
    companions: [
      { use: 'image', ending: '.jp2' },
      { use: 'text', ending: '.alto.xml' },
      { use: 'image metadata', ending: '.mix.xml' },
    ],
  },
  folders: {
    unmatched: ['unmatched'], // [2F]
    unmatchedFile: ['{title}-{reel}-{frame}.{any}'], // [rule list]
    target: ['film-iso-target', 'workshift-iso-target'], // [2F]
    targetFile: ['{title}-{reel}-iso-{number}.{any}', 'target-{number}-{any}.{any}'], // [rule list]
    issue: [EDITION_FOLDER],
  },
  // [2C-9] [2D-6]
  present: [
    { text: 'Present', present: true, published: 'yes' },
    { text: 'Not digitised, published', present: false, published: 'yes' },
    { text: 'Not digitised, not published', present: false, published: 'no' },
    { text: 'Not digitised, publication unknown', present: false, published: 'unknown' },
  ],
  // [2F] filmID is the barcode on the box and a suffix chosen by the supplier; the film's folder carries it.
  reelNumber: { supplierSuffix: '-##' },
  laterCopies: false,
  titleKeys: {},
  carrier: 'film',
  altoImageNumber: 'nothing',
  policies: { pageNumber: 'printed', unnumberedPage: 'omit', frameNumbers: 'unbroken' }, // [2C-3] [rule list, 2F-Q1]
  // The rule that frame numbers run without holes was seen in excerpts only, so it never weighs more than this.
  severityCaps: { 'frame-number-gap': 'minor' },
};
