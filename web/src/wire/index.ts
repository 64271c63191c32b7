export * from "./changes";
export * from "./document";
export * from "./plan";
export * from "./records";
export * from "./rows";
