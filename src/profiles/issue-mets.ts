import type { Profile } from '../model/profile.js';

// Sources of the paths below:
// [issue document] the newspaper issue document of 1905-01-31 that the METS Editorial Board keeps among its examples
//   (github.com/mets/METS-board, "closed_issues/1905013101_1.xml"): every path was seen in it unless another source stands beside the line.
// [Atlas] Beals and Bell, The Atlas of Digitised Newspapers and Metadata, 2020, doi 10.6084/m9.figshare.11560059: observed paths.
// [Danish rules] the Danish national library's newspaper rules (Appendix 2C and 2D), which state openly what the US practice leaves to custom.
// [common practice, no source] not seen in a published document; read leniently.

/** One METS document per issue with a MODS section per page, METS documents per reel, and a batch manifest. */
export const issueMets: Profile = {
  format: 'reeltally/profile/1',
  name: 'issue-mets',
  layout: 'issue-mets',
  names: {
    // Library of Congress page of examples for its newspaper programme: BATCH.xml, BATCH_1.xml once it was checked.
    manifest: ['batch.xml', 'batch_{number}.xml'],
    // [issue document] 1905013101_1.xml: day, edition order, and the mark of the checked copy.
    issueDocument: ['{day}{edition}_{number}.xml', '{day}{edition}.xml'],
    issueFolder: ['{day}{edition}'],
    // Public listing of the batch wyu_ellison (dataset davanstrien/chrono): sn92066979/0051701008A/1921100101.
    titleFolder: ['{lccn}'],
    reelDocument: ['{reel}_{number}.xml', '{reel}.xml'],
    reelFolder: ['{reel}'],
    pageDocument: [],
    absentPageDocument: [],
    // [issue document] reel sequence number 683 is 0683.tif, 0683.jp2, 0683.pdf and 0683.xml; 0016_1.xml is common practice.
    pageFile: ['{frame}.{any}', '{frame}_{number}.{any}'],
    unmatchedFolder: [],
    unmatchedFile: [],
    targetFolder: [],
    targetFile: [],
    // [issue document] "Title, 1905-01-31, Evening".
    label: ['{any}, {date}, {label}', '{any}, {date}'],
  },
  facts: {
    issue: {
      titleId: ['relatedItem[@type=host]/identifier[@type=lccn]', 'relatedItem[@type=host]/identifier[not(@type)]'],
      // [Danish rules] 2D-4 and 2D-5: the date without qualifier is the true one, the questionable one is what is printed.
      date: ['originInfo/dateIssued[@encoding=iso8601][not(@qualifier)]', 'originInfo/dateIssued[not(@qualifier)]'],
      datePrinted: ['originInfo/dateIssued[@qualifier=questionable]'],
      edition: ['relatedItem[@type=host]/part/detail[@type=edition]/number'],
      editionLabel: ['relatedItem[@type=host]/part/detail[@type=edition]/caption'],
      volume: ['relatedItem[@type=host]/part/detail[@type=volume]/number'], // [Atlas]
      issueNumber: ['relatedItem[@type=host]/part/detail[@type=issue]/number'],
      present: ['note[@type=noteAboutReproduction]'],
      presentNote: ['note[@type=noteAboutReproduction]/@displayLabel'], // [Danish rules] 2D-7
    },
    section: {
      // [Danish rules] 2C-1 in its camel-case spelling; the spelling with a blank is common practice, no source.
      section: ['part/detail[@type="section label"]/number', 'part/detail[@type=sectionLabel]/number'],
    },
    page: {
      section: ['part/detail[@type="section label"]/number', 'part/detail[@type=sectionLabel]/number'],
      page: ['part/detail[@type="page number"]/number', 'part/detail[@type=pageNumber]/number'],
      order: ['part/extent[@unit=pages]/start'],
      reel: ['relatedItem[@type=original]/identifier[@type="reel number"]'],
      frame: ['relatedItem[@type=original]/identifier[@type="reel sequence number"]'],
      present: ['note[@type=noteAboutReproduction]', 'relatedItem[@type=original]/note[@type=noteAboutReproduction]'],
      presentNote: [
        'note[@type=noteAboutReproduction]/@displayLabel',
        'relatedItem[@type=original]/note[@type=noteAboutReproduction]/@displayLabel',
      ],
    },
    target: {
      // Common practice, no source: as for a page.
      reel: ['relatedItem[@type=original]/identifier[@type="reel number"]'],
      frame: ['relatedItem[@type=original]/identifier[@type="reel sequence number"]'],
    },
    reel: {
      reel: ['relatedItem[@type=original]/identifier[@type="reel number"]', 'identifier[@type="reel number"]'],
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
  companions: [],
  present: [
    { text: 'Present', present: true, published: 'yes' }, // [issue document]
    { text: 'Not digitized, published', present: false, published: 'yes' }, // shown by the programme's public site for lacking pages
    { text: 'Not digitized, not published', present: false, published: 'no' }, // [Danish rules] 2C-9, 2D-6
    { text: 'Not digitized, publication unknown', present: false, published: 'unknown' }, // [Danish rules] 2C-9, 2D-6
  ],
  // [issue document] 9 digits in the MODS section, 11 characters as a folder name: the folder is a place, not the number.
  reelNumber: { stripLeadingZeros: true, supplierSuffix: null, folderIsReelNumber: false },
  altoImageNumber: 'frame', // [Atlas]
  policies: { pageNumber: 'printed', unnumberedPage: 'omit' }, // [issue document] page 1 has no number, pages 2 to 12 have
  severityCaps: {},
};
