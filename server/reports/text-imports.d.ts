/** A script or a style as the text that a page carries; the build makes it. */
declare module '*?text' {
  const text: string;
  export default text;
}
