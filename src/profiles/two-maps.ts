import type { Profile } from '../model/profile.js';

// Sources of the paths below:
// [two issues] METS documents of two newspaper issues of 1814 that were published as samples of a European newspaper project: every path was seen
//   in them unless another source stands beside the line.
// [METS] the METS schema 1.12.1, attributes of div and file.
// [common practice, no source] not seen in a published document; read leniently.

/** Names of documents and of their folders: day and a count of the issues of that day. */
const NAME = '{day}_{this}';

/**
 * One METS document per issue with a physical and a logical structMap and no links between them: the logical one has the issue, and all pages of
 * the physical one are its. Dates are written day first; nothing is said of film, so the pages are counted on.
 */
export const twoMaps: Profile = {
  format: 'reeltally/profile/2',
  name: 'two-maps',
  layout: 'issue-mets',
  documents: {
    manifest: { names: [], needs: 'may' },
    issue: { names: [], roots: [{ element: 'mets', types: ['Newspaper'] }], needs: 'must' },
    reel: { names: [], needs: 'may' },
    page: { names: [] },
    absentPage: { names: [] },
  },
  divisions: {
    issue: { map: 'LOGICAL', types: ['ISSUE'] },
    section: { types: [] },
    // Other kinds of page are common practice, no source.
    page: { map: 'PHYSICAL', types: ['TITLE_PAGE', 'CONTENT_PAGE', 'ADVERTISEMENT_PAGE', 'BLANK_PAGE', 'PAGE'] },
    reel: { types: [] },
    target: { types: [] },
    scannerTargets: { types: [] },
  },
  pagesOfIssue: 'document',
  facts: {
    issue: {
      titleId: { sources: ['identifier[@type=local]', 'identifier'], needs: 'must' },
      date: {
        sources: ['originInfo/dateIssued'],
        copies: [
          { in: 'document', path: '@LABEL', pattern: '{any} {date}' },
          { in: 'folder', up: 1, pattern: '{day}_{number}' },
          { in: 'document-name', pattern: '{day}_{number}-mets.xml' },
        ],
        shape: 'D.M.YYYY',
        needs: 'must',
      },
      edition: {
        // The count in the names is taken for the edition: common practice, no source.
        sources: [
          { in: 'folder', up: 1, pattern: NAME },
          { in: 'document-name', pattern: `${NAME}-mets.xml` },
        ],
        copies: [{ in: 'document-name', pattern: `${NAME}-mets.xml` }],
      },
      issueNumber: { sources: ['part/detail[@type=issue]/number', 'titleInfo/partNumber'] }, // common practice, no source
    },
    section: {},
    page: {
      order: { sources: [{ in: 'division', path: '@ORDER' }], needs: 'must' },
      page: { sources: [{ in: 'division', path: '@ORDERLABEL' }] }, // [METS]; not one of the pages seen has it
      frame: { sources: [{ in: 'count' }] },
    },
    target: {},
    scannerTarget: {},
    reel: {},
  },
  reelFacts: [],
  files: {
    uses: {
      preservation: { needs: 'where-held', is: 'image' },
      viewing: { needs: 'may', is: 'image' }, // no division points to them
      content: { needs: 'where-held', is: 'text' },
    },
    otherUses: 'may',
    ignored: [],
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
