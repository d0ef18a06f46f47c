/** What the tests ask of the library astronomia, which brings no types. */
declare module 'astronomia/julian' {
  interface Day {
    readonly year: number;
    readonly month: number;
    readonly day: number;
    fromJD(jd: number): Day;
    toJD(): number;
    /** 0 is Sunday. */
    dayOfWeek(): number;
  }
  export const CalendarGregorian: new (year?: number, month?: number, day?: number) => Day;
  export const CalendarJulian: new (year?: number, month?: number, day?: number) => Day;
}
