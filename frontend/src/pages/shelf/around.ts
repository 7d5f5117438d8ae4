/** What the shelf needs only once it stands there: one file, fetched behind the first paint and kept by the worker. */
export { dropping } from "./drop";
export { Find } from "./Find";
export { findOn } from "./find";
export { watching } from "./news";
export { remembered } from "./remembered";
