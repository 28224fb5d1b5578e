/** A class is proven at this probability or more: the 95 % that ISO 14253-1 asks for, with room for
 *  what the model does not know. */
export const PROVEN = 0.975;
