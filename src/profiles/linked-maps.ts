import type { Profile } from '../model/profile.js';

// Sources of the paths below:
// [one issue] the METS document of one newspaper issue of 1824 that a national library published (doi 10.23636/1235): every path was seen in it
//   unless another source stands beside the line.
// [METS] the METS schema 1.12.1, structLink with smLinkGrp.
// [common practice, no source] not seen in a published document; read leniently.

/**
 * One METS document per issue with a logical and a physical structMap that a structLink holds together. Each page says its place and its printed
 * number on its own division; nothing is said of film, so the pages are counted on.
 */
export const linkedMaps: Profile = {
  format: 'reeltally/profile/2',
  name: 'linked-maps',
  layout: 'issue-mets',
  documents: {
    manifest: { names: [], needs: 'may' },
    issue: { names: ['{any}_{day}_mets.xml'], roots: [{ element: 'mets', types: ['Newspaper'] }], needs: 'must' },
    reel: { names: [], needs: 'may' },
    page: { names: [] },
    absentPage: { names: [] },
  },
  divisions: {
    issue: { map: 'LOGICAL', types: ['ISSUE'] },
    section: { types: [] },
    page: { map: 'PHYSICAL', types: ['page'] },
    reel: { types: [] },
    target: { types: [] },
    scannerTargets: { types: [] },
  },
  pagesOfIssue: 'linked', // [METS]
  facts: {
    issue: {
      titleId: {
        sources: ['relatedItem[@type=host]/identifier'],
        copies: [{ in: 'document-name', pattern: '{title}_{day}_mets.xml' }],
        needs: 'must',
      },
      date: {
        sources: ['originInfo/dateIssued[@encoding=w3cdtf]', 'originInfo/dateIssued'],
        copies: [
          { in: 'document-name', pattern: '{any}_{day}_mets.xml' },
          { in: 'division', path: '@LABEL', pattern: '{any} {date}' },
        ],
        needs: 'must',
      },
      edition: { sources: ['part/detail[@type=edition]/number'] }, // common practice, no source
      volume: { sources: ['part/detail[@type=volume]/number'] }, // common practice, no source
      issueNumber: { sources: ['part/detail[@type=issue]/number'] },
    },
    section: {},
    page: {
      order: { sources: [{ in: 'division', path: '@ORDER' }], needs: 'must' },
      page: { sources: [{ in: 'division', path: '@ORDERLABEL' }], movedBy: 'unnumberedPage' },
      frame: { sources: [{ in: 'count' }] },
    },
    target: {},
    scannerTarget: {},
    reel: {},
  },
  reelFacts: [],
  files: {
    uses: {
      preservationmaster: { needs: 'where-held', is: 'image' },
      fulltext: { needs: 'where-held', is: 'text' },
    },
    otherUses: 'may',
    // The scans from which the delivered images were made; their entries name no file.
    ignored: ['discarded'],
    companions: [],
  },
  folders: { unmatched: [], unmatchedFile: [], target: [], targetFile: [], issue: [] },
  present: [],
  laterCopies: false,
  titleKeys: {},
  reelNumber: { supplierSuffix: null },
  carrier: 'film',
  altoImageNumber: 'order',
  // What such documents cannot say is not asked for: pages that are not on the film, dates as printed.
  policies: { absentPages: 'omitted', printedDate: 'optional', targets: 'not-listed' },
  severityCaps: {},
};
