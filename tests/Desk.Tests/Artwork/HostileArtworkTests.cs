using System.Globalization;
using System.IO.Compression;
using System.Text;
using Coldpeel.Desk.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>Small files that ask for endless work, through everything that <c>coldpeel artwork FILE</c> does: refused in one line or drawn, within bounds.</summary>
/// <remarks>
/// Alone on the processor, so that the processor's time that is measured is that of the file, with the programs it starts; the bound is 5 s and 1 GB, and
/// the assertion leaves room for slow machines and for a build without optimising.
/// </remarks>
[Collection(nameof(Alone))]
public sealed class HostileArtworkTests : IDisposable
{
    [CollectionDefinition(nameof(Alone), DisableParallelization = true)]
    public sealed class Alone;

    private const string Open =
        "<svg xmlns='http://www.w3.org/2000/svg' width='300mm' height='200mm' viewBox='0 0 300 200'>";
    private const string Page = "<rect width='300' height='200' filter='url(#f)'/></svg>";
    private const string Filter = "<filter id='f' x='0' y='0' width='1' height='1'>";

    private static readonly Dictionary<string, Func<byte[]>> Files = new()
    {
        ["ten thousand circles by uses of uses.svg"] = () => Svg(Uses() + "<use href='#u4'/></svg>"),
        ["a pattern of grains.svg"] = () =>
            Svg(
                "<pattern id='p' width='.15' height='.15' patternUnits='userSpaceOnUse'><circle cx='.07' cy='.07' r='.05'/></pattern><rect width='300' height='200' fill='url(#p)'/></svg>"
            ),
        ["turbulence.svg"] = () => Svg(Filter + "<feTurbulence baseFrequency='.9' numOctaves='8'/></filter>" + Page),
        ["twenty blurs.svg"] = () =>
            Svg(Filter + Times(20, _ => $"<feGaussianBlur stdDeviation='3'/>") + "</filter>" + Page),
        ["fifteen thousand free circles.svg"] = () =>
            Svg(
                Times(15_000, i => $"<circle cx='{1 + (2 * (i % 149))}' cy='{1 + (1.9 * (i / 149)):F1}' r='.5'/>")
                    + "</svg>"
            ),
        ["sixty thousand circles.svg"] = () =>
            Svg(
                Times(60_000, i => $"<circle cx='{i * 37 % 2990 / 10.0}' cy='{i * 91 % 1990 / 10.0}' r='.12'/>")
                    + "</svg>"
            ),
        ["noise of 119 million pixels.png"] = () => Png(10_900, 10_900, 1, 0, noise: true, 600),
        ["noise of 33 million pixels.png"] = () => Png(5800, 5800, 1, 0, noise: true, 5800),
        ["eight thousand short lines.pdf"] = () =>
            Pdf(
                Times(
                    8000,
                    i =>
                        $"{3 + (i % 90 * 6.5):F1} {3 + (i / 90 * 9.2):F1} m {6 + (i % 90 * 6.5):F1} {5 + (i / 90 * 9.2):F1} l S\n"
                )
            ),
        ["eight thousand lines across the page.pdf"] = () =>
            Pdf(
                Times(
                    8000,
                    i =>
                        $"{i * 37 % 5950 / 10.0:F1} {i * 53 % 8420 / 10.0:F1} m {i * 71 % 5950 / 10.0:F1} {i * 97 % 8420 / 10.0:F1} l S\n"
                )
            ),
        ["33 million deep pixels, square.png"] = () => Png(5800, 5800, 16, 6, noise: false, 5800),
        ["33 million deep pixels, as wide as the film.png"] = () => Png(7500, 4500, 16, 6, noise: false, 4500),
    };

    private readonly string _folder = Place.NewFolder();

    public static TheoryData<string> Names => [.. Files.Keys];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [MemberData(nameof(Names))]
    public void The_whole_verb_refuses_it_in_one_line_or_draws_it_within_bounds(string name)
    {
        if (name.EndsWith(".pdf", StringComparison.Ordinal))
        {
            Place.Tool("pdftocairo");
        }

        var file = Path.Combine(_folder, name);
        File.WriteAllBytes(file, Files[name]());
        // What the files before it left behind is not its own.
        GC.Collect(2, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        ForgetPeak();
        // The processes' own size, with what other tests left, is not the file's: the bound holds for what it adds, and a fresh program is some 60 MB.
        var (before, had) = (Processor(), PeakMb());
        var answer = ReadArtwork.Run(file, new(null, 280, null, null, null, null, null, null));
        var (spent, peak) = (Processor() - before, PeakMb() - had);
        var say = answer.Ok
            ? $"drawn, {answer.Value.Findings.Length} findings: {string.Join(", ", answer.Value.Findings.Select(f => f.Kind))}"
            : answer.Fault.ToString();
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"{name}: {spent:F2} s, {peak:F0} MB, {say}")
        );
        Assert.DoesNotContain('\n', say);
        if (answer.Ok)
        {
            Assert.NotNull(answer.Value.Design);
            Assert.InRange(answer.Value.Findings.Length, 0, 12);
        }

        Assert.True(spent < 8, $"{name}: {spent:F1} s of the processor.");
        Assert.True(peak < 940, $"{name}: {peak:F0} MB.");
    }

    [Fact]
    public void Noise_is_one_finding_and_is_not_mended_dot_by_dot()
    {
        var file = Path.Combine(_folder, "noise.png");
        File.WriteAllBytes(file, Png(800, 800, 1, 0, noise: true, 800));
        var options = new ReadArtworkOptions(null, 34, null, "dark", null, null, null, null);
        var answer = ReadArtwork.Run(file, options);
        Assert.True(answer.Ok, answer.Fault?.ToString());
        var finding = Assert.Single(answer.Value.Findings, f => f.Kind == "too-many-dots");
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.Contains("too many dots to tell apart", finding.Say.English, StringComparison.Ordinal);
        var mended = ReadArtwork.Run(file, options with { Mends = ["drop-specks"], MendedPath = file + ".out.png" });
        Assert.False(mended.Ok);
        Assert.Contains("too many dots to tell apart", mended.Fault.ToString(), StringComparison.Ordinal);
    }

    /// <summary>Seconds of the processor that this program and those it started have taken; Linux tells the latter (proc(5), stat fields 16 and 17).</summary>
    private static double Processor()
    {
        var own = Environment.CpuUsage.TotalTime.TotalSeconds;
        if (!OperatingSystem.IsLinux())
        {
            return own;
        }

        var stat = File.ReadAllText("/proc/self/stat");
        var fields = stat[(stat.LastIndexOf(')') + 2)..].Split(' ');
        double Ticks(int k) => long.Parse(fields[k], CultureInfo.InvariantCulture);
        return own + ((Ticks(13) + Ticks(14)) / 100);
    }

    // proc(5): writing 5 to clear_refs sets the peak (VmHWM) back to what is held now.
    private static void ForgetPeak()
    {
        if (OperatingSystem.IsLinux())
        {
            File.WriteAllText("/proc/self/clear_refs", "5");
        }
    }

    private static double PeakMb() =>
        OperatingSystem.IsLinux()
            ? File.ReadLines("/proc/self/status")
                .Where(l => l.StartsWith("VmHWM:", StringComparison.Ordinal))
                .Select(l =>
                    double.Parse(l.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture)
                )
                .Single() / 1000
            : 0;

    /// <summary>A PDF of one page of A4 (ISO 32000-1) with thin black lines.</summary>
    private static byte[] Pdf(string lines)
    {
        var content = $"0 0 0 RG 0.7 w\n{lines}";
        string[] objects =
        [
            "<< /Type /Catalog /Pages 2 0 R >>",
            "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R >>",
            $"<< /Length {content.Length} >>\nstream\n{content}\nendstream",
        ];
        var file = new StringBuilder("%PDF-1.4\n");
        var at = new List<int>();
        for (var k = 0; k < objects.Length; k++)
        {
            at.Add(file.Length);
            file.Append(CultureInfo.InvariantCulture, $"{k + 1} 0 obj\n{objects[k]}\nendobj\n");
        }

        var table = file.Length;
        file.Append(CultureInfo.InvariantCulture, $"xref\n0 {objects.Length + 1}\n0000000000 65535 f \n");
        at.ForEach(offset => file.Append(CultureInfo.InvariantCulture, $"{offset:D10} 00000 n \n"));
        file.Append(
            CultureInfo.InvariantCulture,
            $"trailer << /Size {objects.Length + 1} /Root 1 0 R >>\nstartxref\n{table}\n%%EOF\n"
        );
        return Encoding.ASCII.GetBytes(file.ToString());
    }

    private static byte[] Svg(string inside) => Encoding.UTF8.GetBytes(Open + inside);

    private static string Uses()
    {
        var all = new StringBuilder("<defs><g id='u0'><circle r='1' cx='1' cy='1'/></g>");
        for (var k = 1; k <= 4; k++)
        {
            var step = Math.Pow(2.3, k);
            all.Append(CultureInfo.InvariantCulture, $"<g id='u{k}'>");
            for (var i = 0; i < 10; i++)
            {
                all.Append(
                    CultureInfo.InvariantCulture,
                    $"<use href='#u{k - 1}' x='{i * step:F2}' y='{i % 3 * Math.Pow(1.7, k):F2}'/>"
                );
            }

            all.Append("</g>");
        }

        return all.Append("</defs>").ToString();
    }

    /// <summary>A PNG (ISO/IEC 15948): some rows of noise over and over, or deep colours that run.</summary>
    private static byte[] Png(int width, int height, byte depth, byte kind, bool noise, int period)
    {
        using var to = new MemoryStream();
        to.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        using var header = new MemoryStream();
        header.Write([.. Big(width), .. Big(height), depth, kind, 0, 0, 0]);
        Chunk(to, "IHDR", header.ToArray());
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            var row = new byte[1 + (((width * depth * (kind == 6 ? 4 : 1)) + 7) / 8)];
            for (var y = 0; y < height; y++)
            {
                ulong seed = ((ulong)(y % period) + 1) * 0x9E3779B97F4A7C15;
                for (var i = 1; i < row.Length; i++)
                {
                    seed ^= seed << 13;
                    seed ^= seed >> 7;
                    seed ^= seed << 17;
                    row[i] = noise ? (byte)(seed >> 24) : (byte)((i / 400) + (y / 50));
                }

                zip.Write(row);
            }
        }

        Chunk(to, "IDAT", packed.ToArray());
        Chunk(to, "IEND", []);
        return to.ToArray();
    }

    private static void Chunk(MemoryStream to, string name, byte[] inside)
    {
        byte[] body = [.. Encoding.ASCII.GetBytes(name), .. inside];
        var crc = uint.MaxValue;
        foreach (var b in body)
        {
            crc ^= b;
            for (var k = 0; k < 8; k++)
            {
                crc = (crc >> 1) ^ ((crc & 1) * 0xEDB88320);
            }
        }

        to.Write(Big(inside.Length));
        to.Write(body);
        to.Write(Big((int)~crc));
    }

    private static byte[] Big(int value) => [(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value];

    private static string Times(int n, Func<int, FormattableString> part) =>
        string.Concat(Enumerable.Range(0, n).Select(i => FormattableString.Invariant(part(i))));
}
