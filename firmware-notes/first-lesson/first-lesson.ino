// First lesson: three numbers a second, separated by semicolons: pH amplifier, moisture, light, in counts of 0 to 1023.
const int PH = A0;
const int MOISTURE = A1;
const int LIGHT = A2; // a light-dependent resistor to GND, 10 kOhm to 5V

void setup() {
  Serial.begin(9600);
}

void loop() {
  Serial.print(analogRead(PH));
  Serial.print(';');
  Serial.print(analogRead(MOISTURE));
  Serial.print(';');
  Serial.println(analogRead(LIGHT));
  delay(1000);
}
