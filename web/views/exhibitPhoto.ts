/** A photograph as the exhibit prints it. */
export interface ExhibitPhoto {
  readonly id: string;
  readonly caption: string;
  /** When it was taken or chosen, as it is printed. */
  readonly at: string;
  readonly by: string;
  readonly url: string;
  /** Of the picture, px. */
  readonly width: number;
  readonly height: number;
}
