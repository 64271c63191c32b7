export * from "./changes";
export * from "./document";
export { DEFAULTS } from "./generated/defaults";
export * from "./people";
export * from "./photos";
export * from "./plan";
export * from "./records";
export * from "./rows";
export * from "./scans";
