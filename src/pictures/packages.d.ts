// The package has no types of its own; this is the part of it that is used.
declare module '@cornerstonejs/codec-openjpeg/wasmjs' {
  interface Decoder {
    getEncodedBuffer(length: number): Uint8Array;
    getDecodedBuffer(): Uint8Array;
    getFrameInfo(): {
      readonly width: number;
      readonly height: number;
      readonly bitsPerSample: number;
      readonly componentCount: number;
      readonly isSigned: boolean;
    };
    decodeSubResolution(level: number, layer: number): void;
    calculateSizeAtDecompositionLevel(level: number): { readonly width: number; readonly height: number };
    delete(): void;
  }
  export default function load(options?: {
    readonly locateFile?: (name: string) => string;
    readonly print?: () => void;
    readonly printErr?: () => void;
  }): Promise<{ readonly J2KDecoder: new () => Decoder }>;
}
