// The package has no types; its readers are typed where they are used.
declare module 'jzz-midi-smf' {
  const plugin: (jzz: unknown) => void;
  export default plugin;
}
