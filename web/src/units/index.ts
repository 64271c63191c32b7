export * from "./length";
export * from "./shown";
