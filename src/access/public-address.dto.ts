export class PublicAddressDto {
  /** What links on paper begin with, without a slash at the end; null: nobody has set PUBLIC_URL. @example "https://bells.example" */
  address!: string | null;
}
