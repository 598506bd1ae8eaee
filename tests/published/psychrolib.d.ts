/** The parts of psychrolib that the tests use. In SI units: °C, Pa, relative humidity as a fraction. */
declare module 'psychrolib' {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetTDewPointFromRelHum(airC: number, rh: number): number;
    GetRelHumFromTWetBulb(airC: number, wetC: number, pressurePa: number): number;
    GetTDewPointFromTWetBulb(airC: number, wetC: number, pressurePa: number): number;
    GetStandardAtmPressure(altitudeM: number): number;
    GetTWetBulbFromRelHum(airC: number, rh: number, pressurePa: number): number;
  };
  export default psychrolib;
}
