using System.Globalization;
using System.Text;
using QRCoder;

namespace KittingBee.Web.Documents.Labels;

/// <summary>A QR code as one SVG path in millimetres.</summary>
/// <param name="Path">Path data from the code's own upper left corner, quiet zone included.</param>
/// <param name="Side">Side of the whole, quiet zone included, in millimetres.</param>
public sealed record QrSquare(string Path, decimal Side)
{
    /// <summary>Smallest module that is printed: five dots of a 300 dpi printer (the inventor recommends at least four).</summary>
    public const decimal LeastModule = 0.42m;

    private const decimal LargestModule = 0.8m;

    /// <summary>The code with the largest modules that fit, or null where even the smallest do not. Recovery level M; the quiet zone is the standard's four modules.</summary>
    public static QrSquare? Of(string text, decimal room)
    {
        using var generator = new QRCodeGenerator();
        using var code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var modules = code.ModuleMatrix.Count; // With a quiet zone of four on each side.
        var module = Math.Min(LargestModule, decimal.Round(room / modules, 3, MidpointRounding.ToZero));
        if (module < LeastModule)
        {
            return null;
        }

        var path = new StringBuilder();
        for (var row = 0; row < modules; row++)
        {
            for (var column = 0; column < modules; column++)
            {
                var run = 0;
                while (column + run < modules && code.ModuleMatrix[row][column + run])
                {
                    run++;
                }

                if (run > 0)
                {
                    // One bar for a run of dark modules, so that no hairline shows between them.
                    path.Append(CultureInfo.InvariantCulture, $"M{column * module:0.###} {row * module:0.###}h{run * module:0.###}v{module:0.###}h{-run * module:0.###}z");
                    column += run;
                }
            }
        }

        return new QrSquare(path.ToString(), modules * module);
    }
}
