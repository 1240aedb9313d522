// The part of jscolorengine 1.6.1 the colour tests use; the package ships no types.
declare module 'jscolorengine/src/Spectral.js' {
  export interface Spectrum {
    startnm: number;
    endnm: number;
    step: number;
    data: readonly number[];
  }
  export interface Observer {
    startnm: number;
    step: number;
    X: readonly number[];
    Y: readonly number[];
    Z: readonly number[];
  }
  export default class Spectral {
    getIlluminant(name: string): Spectrum;
    getObserver(name: string): Observer;
    toSpectral(startnm: number, endnm: number, data: readonly number[], step: number): Spectrum;
    calculateXYZ(spectrum: Spectrum, illuminant: Spectrum, observer: Observer): { X: number; Y: number; Z: number };
  }
}
