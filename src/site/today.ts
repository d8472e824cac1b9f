/** The year in which the site was built: "today" on the pages that are drawn at build. */
export const thisYear: number = new Date().getFullYear();
