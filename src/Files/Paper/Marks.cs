using System.Globalization;
using System.Text;
using QRCoder;
using QRCoder.Exceptions;

namespace Coldpeel.Files.Paper;

/// <summary>Small marks that we draw ourselves.</summary>
internal static class Marks
{
    /// <summary>A box to tick by hand.</summary>
    public static void Tick(Page page, double x, double y, double size) => page.Box(x, y, size, size, 0.4, Inks.Black);

    /// <summary>Our sign of caution: a triangle with a stroke and a dot, of that height.</summary>
    public static void Caution(Page page, double x, double y, double height)
    {
        page.Shape("M0.5 0.04 L0.98 0.9 L0.02 0.9 Z", x, y, height, Inks.Amber, Inks.Black, 0.5);
        page.Shape("M0.45 0.32 L0.55 0.32 L0.53 0.62 L0.47 0.62 Z", x, y, height, Inks.Black, null);
        page.Shape("M0.45 0.68 L0.55 0.68 L0.55 0.78 L0.45 0.78 Z", x, y, height, Inks.Black, null);
    }

    /// <summary>A QR code of error level M with its quiet zone of four modules; false when the text is longer than a code can hold.</summary>
    public static bool Qr(Page page, double x, double y, double size, string text)
    {
        QRCodeData code;
        try
        {
            using var generator = new QRCodeGenerator();
            code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.M);
        }
        catch (DataTooLongException)
        {
            return false;
        }

        using (code)
        {
            var modules = code.ModuleMatrix;
            var data = new StringBuilder();
            for (var row = 0; row < modules.Count; row++)
            {
                for (var from = 0; from < modules.Count; from++)
                {
                    var to = from;
                    while (to < modules.Count && modules[row][to])
                    {
                        to++;
                    }

                    if (to > from)
                    {
                        data.Append(CultureInfo.InvariantCulture, $"M{from} {row}H{to}V{row + 1}H{from}Z");
                        from = to;
                    }
                }
            }

            page.Fill(x, y, size, size, Inks.White);
            page.Shape(data.ToString(), x, y, size / modules.Count, SkiaSharp.SKColors.Black, null);
            return true;
        }
    }
}
