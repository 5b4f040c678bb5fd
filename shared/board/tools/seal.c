/* Build tool: prints the CRC of a program image, the two bytes at the given address left out. Usage: seal IMAGE ADDRESS */
#include <stdio.h>
#include <stdlib.h>
#include "../core/crc.h"

int main(int argc, char **argv)
{
    FILE *image = argc == 3 ? fopen(argv[1], "rb") : NULL;
    if (!image) {
        fprintf(stderr, "seal: cannot read the program image; usage: seal IMAGE ADDRESS\n");
        return 1;
    }
    const long own = strtol(argv[2], NULL, 16);
    uint16_t crc = CRC_START;
    int byte;
    for (long at = 0; (byte = fgetc(image)) != EOF; at++)
        if (at != own && at != own + 1)
            crc = crc_add(crc, (uint8_t)byte);
    fclose(image);
    printf("%04X\n", crc);
    return 0;
}
