// What the bundler makes of a style sheet: its text.
declare module "*.css" {
  const text: string;
  export default text;
}
