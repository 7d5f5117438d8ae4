/** What the shelf needs only once it stands there: one file, fetched behind the first paint and kept by the worker. */
export { Away } from "./Away";
export { Doors } from "./Doors";
export { dropping } from "./drop";
export { Gone } from "./Gone";
export { back, keepOff, keptOff } from "./off";
export { Took } from "./Took";
export { Find } from "./Find";
export { findOn } from "./find";
export { watching } from "./news";
export { remembered } from "./remembered";
