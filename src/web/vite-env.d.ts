// What the bundler makes of imports that are no modules.
declare module '*?worker' {
  const BundledWorker: new () => Worker;
  export default BundledWorker;
}
declare module '*?worker&url' {
  const address: string;
  export default address;
}
declare module '*?url' {
  const address: string;
  export default address;
}
declare module '*.css' {}
interface ImportMeta {
  /** Whether this is a build; the development server is none. */
  readonly env: { readonly PROD: boolean };
}
