export declare const slots: Readonly<
  Record<
    | 'isClosed'
    | 'written'
    | 'read'
    | 'isConnected'
    | 'hasWifi'
    | 'rest'
    | 'lightCount'
    | 'hasLight'
    | 'sixteenths'
    | 'hasThermometer'
    | 'cupsMillihertz'
    | 'cupsBounces'
    | 'cupsBounceUs'
    | 'fed'
    | 'microvolt',
    number
  >
>
export declare const SLOTS: number
export declare const RING_BYTES: number
