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

/** One MODS document per page and per edition, one film document, folders per film and edition. */
export const pageMods: Profile = {
  format: 'reeltally/profile/1',
  name: 'page-mods',
  layout: 'page-mods',
  names: {
    manifest: [],
    issueDocument: ['{title}-{date}-{edition}.edition.xml'], // [2F] [rule list]
    issueFolder: ['{date}-{edition}'], // [2F]
    titleFolder: [],
    reelDocument: ['{title}-{reel}.film.xml'], // [rule list]
    reelFolder: ['{reel}'], // [2F]
    pageDocument: ['{title}-{date}-{edition}-{frame}.mods.xml'], // [2F] [rule list]
    absentPageDocument: ['{title}-{date}-{edition}-x{number}.mods.xml'], // [excerpt]
    pageFile: ['{title}-{date}-{edition}-{frame}.{any}'], // [2F]
    unmatchedFolder: ['unmatched'], // [2F]
    unmatchedFile: ['{title}-{reel}-{frame}.{any}'], // [rule list]
    targetFolder: ['film-iso-target'], // [2F]
    targetFile: ['{title}-{reel}-iso-{number}.{any}'], // [rule list]
    label: [],
  },
  facts: {
    issue: {
      titleId: [UNIFORM_TITLE, UNIFORM_TITLE_AS_PRINTED, 'titleInfo[@type=uniform]/title'], // [2D-1]
      date: ['originInfo/dateIssued[@encoding=iso8601][not(@qualifier)]', 'originInfo/dateIssued[not(@qualifier)]'], // [2D-4]
      datePrinted: ['originInfo/dateIssued[@qualifier=questionable]'], // [2D-5]
      edition: ['relatedItem[@type=host]/part/detail[@type=edition]/number', 'part/detail[@type=edition]/number'], // [by likeness]
      editionLabel: ['relatedItem[@type=host]/part/detail[@type=edition]/caption', 'part/detail[@type=edition]/caption'], // [by likeness]
      volume: ['relatedItem[@type=host]/part/detail[@type=volume]/number', 'part/detail[@type=volume]/number'], // [by likeness]
      issueNumber: ['relatedItem[@type=host]/part/detail[@type=issue]/number', 'part/detail[@type=issue]/number'], // [by likeness]
      present: ['note[@type=noteAboutReproduction]', 'note[not(@type)]'], // [2D-6]
      presentNote: ['note[@type=noteAboutReproduction]/@displayLabel', 'note[not(@type)]/@displayLabel'], // [2D-7]
    },
    section: {},
    page: {
      titleId: [`relatedItem[@type=host]/${UNIFORM_TITLE}`, `relatedItem[@type=host]/${UNIFORM_TITLE_AS_PRINTED}`], // [2C-11, excerpt]
      section: ['part/detail[@type=sectionLabel]/number', 'part/detail[@type="section label"]/number'], // [2C-1]
      order: ['part/extent[@unit=pages]/start'], // [2C-2]
      page: ['part/detail[@type=pageNumber]/number', 'part/detail[@type="page number"]/number'], // [2C-3]
      reel: ['relatedItem[@type=original]/identifier[@type="reel number"]'], // [2C-4]
      frame: ['relatedItem[@type=original]/identifier[@type="reel sequence number"]'], // [2C-5]
      present: [PRESENT_ON_PAGE, 'note[@type=noteAboutReproduction]'], // [2C-9]
      presentNote: [`${PRESENT_ON_PAGE}/@displayLabel`, 'note[@type=noteAboutReproduction]/@displayLabel'], // [2C-10]
    },
    target: {},
    reel: {
      reel: ['batchIdFilmId'], // [2E-4]
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
  // [rule list] Files of a page have its name and one of these endings.
  companions: [
    { use: 'image', ending: '.jp2' },
    { use: 'text', ending: '.alto.xml' },
    { use: 'image metadata', ending: '.mix.xml' },
  ],
  // [2C-9] [2D-6]
  present: [
    { text: 'Present', present: true, published: 'yes' },
    { text: 'Not digitised, published', present: false, published: 'yes' },
    { text: 'Not digitised, not published', present: false, published: 'no' },
    { text: 'Not digitised, publication unknown', present: false, published: 'unknown' },
  ],
  // [2F] filmID is the barcode on the box and a suffix chosen by the supplier; the film's folder carries it.
  reelNumber: { stripLeadingZeros: true, supplierSuffix: '-##', folderIsReelNumber: true },
  altoImageNumber: 'nothing',
  policies: { pageNumber: 'printed', unnumberedPage: 'omit', frameNumbers: 'unbroken' }, // [2C-3] [rule list, 2F-Q1]
  // The rule that frame numbers run without holes was seen in excerpts only, so it never weighs more than this.
  severityCaps: { 'frame-number-gap': 'minor' },
};
