// The version of a line of the day-book and of its file, as Python reads and writes them: put in here by the build.

export const SCHEMA = Number("%%SCHEMA%%");
