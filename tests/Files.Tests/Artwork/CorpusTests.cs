using System.Collections.Concurrent;
using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Text.Json;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Artwork.Lettering;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>
/// Drawings and fonts that nobody here made: general sets of user-interface icons (npm packages under OSI licences, fetched at test time
/// into artifacts/corpora, never committed) and the OFL fonts of fonts/restore.sh. librsvg (rsvg-convert) is the independent renderer.
/// </summary>
[Trait("Speed", "slow")]
public sealed class CorpusTests(ITestOutputHelper output)
{
    private const double SizeMm = 12;

    /// <summary>0.1 mm at 20 dots a millimetre.</summary>
    private const int EdgeDots = 2;

    /// <summary>Package, the folders taken of it, and how many icons.</summary>
    private static readonly (string Package, string[] Folders, int Count)[] Sets =
    [
        ("heroicons@2.2.0", ["24/outline/", "24/solid/", "20/solid/"], 600),
        ("lucide-static@1.62.0", ["icons/"], 700),
        ("@material-design-icons/svg@0.14.15", ["outlined/", "two-tone/", "sharp/"], 700),
    ];

    [Fact]
    public void Two_thousand_icons_are_read_and_98_percent_look_as_another_renderer_draws_them()
    {
        Place.Tool("rsvg-convert");
        var agree = 0;
        var apart = new ConcurrentBag<string>();
        var all = 0;
        foreach (var (package, folders, count) in Sets)
        {
            var icons = Icons(package, folders, count);
            all += icons.Count;
            var (here, means) = (0, new ConcurrentBag<double>());
            Parallel.ForEach(
                icons.Chunk(IconSheet.Most),
                new ParallelOptions { MaxDegreeOfParallelism = 2 },
                some =>
                {
                    var theirs = IconSheet.ByRsvg([.. some.Select(i => i.Bytes)], (int)(SizeMm * Drawings.DotsPerMm));
                    foreach (var (icon, dark) in some.Zip(theirs))
                    {
                        var (why, mean) = Apart(icon.Bytes, icon.Name, dark);
                        means.Add(mean);
                        if (why is null)
                        {
                            Interlocked.Increment(ref here);
                        }
                        else
                        {
                            apart.Add($"{package} {icon.Name}: {why}");
                        }
                    }
                }
            );
            agree += here;
            output.WriteLine(
                FormattableString.Invariant(
                    $"{package}: {here} of {icons.Count} agree; difference of ink {means.Average():F3} % on average, {means.Max():F2} % at most"
                )
            );
        }

        foreach (var line in apart.Order(StringComparer.Ordinal))
        {
            output.WriteLine(line);
        }

        Assert.Equal(2000, all);
        Assert.True(agree >= 0.98 * all, $"Only {agree} of {all} agree: {string.Join("; ", apart.Take(5))}");
    }

    [Fact]
    public void Every_restored_font_opens_and_sets_a_word()
    {
        var folder = Path.Combine(Place.Root, "fonts", "node_modules");
        var files = Directory.Exists(folder) ? Directory.GetFiles(folder, "*.ttf", SearchOption.AllDirectories) : [];
        Assert.SkipWhen(files.Length == 0, "fonts/restore.sh has restored nothing on this machine.");
        foreach (var file in files)
        {
            var found = FontShelf.OpenOnly([]).Find(Path.GetFileName(file), Path.GetDirectoryName(file), "test");
            Assert.True(found.Ok, $"{file}: {found.Fault}");
            using var face = found.Value;
            var set = LetteringSetter.Set(face, new LetteringRequest("", Path.GetFileName(file), 20), "Regatta 7");
            Assert.True(set.WidthMm > 20 && !set.Path.IsEmpty, $"{file} set nothing.");
        }

        output.WriteLine($"{files.Length} fonts");
    }

    /// <summary>Why our drawing and librsvg's lie apart, or null; and by how much, in percent of the ink.</summary>
    private static (string? Why, double Percent) Apart(byte[] svg, string name, byte[] theirs)
    {
        var read = ArtworkReader.Read(svg, name);
        if (!read.Ok)
        {
            Assert.DoesNotContain('\n', read.Fault.ToString());
            return ($"refused: {read.Fault.What.English}", 0);
        }

        var (width, height) = read.Value.SizeFor(SizeMm, SizeMm);
        var ink = read.Value.Ink(Drawings.Darkness, width, height);
        var (w, h, ours) = ink.Path is { } path ? Plane(path, width, height) : Drawn(read.Value, width, height);
        if (ours.Length != theirs.Length)
        {
            return ($"{w} × {h} dots here, {theirs.Length} there", 0);
        }

        double inked = theirs.Sum(d => (long)d);
        var percent = 100 * ours.Zip(theirs, (a, b) => Math.Abs(a - b)).Sum() / Math.Max(1, inked);
        var edge = Drawings.EdgeDots(ours, theirs, w, h);
        return (
            percent >= 1 || edge > EdgeDots
                ? FormattableString.Invariant(
                    $"{percent:F2} % of ink apart, edges {edge / Drawings.DotsPerMm:F2} mm{(ink.WhyNot is { } why ? $" ({why})" : "")}"
                )
                : null,
            percent
        );
    }

    private static (int W, int H, byte[] Dark) Plane(Craft.Artwork.InkPath path, double width, double height)
    {
        var plane = InkRaster.Fill(path, width, height, Drawings.DotsPerMm);
        return (plane.Width, plane.Height, plane.Coverage);
    }

    private static (int W, int H, byte[] Dark) Drawn(SourceArtwork artwork, double width, double height)
    {
        var picture = artwork.Draw(width, height, Drawings.DotsPerMm);
        return (picture.Width, picture.Height, Drawings.Dark(picture));
    }

    /// <summary>Every so-manieth icon of a package by name.</summary>
    private static List<(string Name, byte[] Bytes)> Icons(string package, string[] folders, int count)
    {
        using var zip = new GZipStream(File.OpenRead(Packed(package)), CompressionMode.Decompress);
        using var tar = new TarReader(zip);
        var all = new SortedDictionary<string, byte[]>(StringComparer.Ordinal);
        while (tar.GetNextEntry() is { } entry)
        {
            using var memory = new MemoryStream();
            entry.DataStream?.CopyTo(memory);
            if (entry.Name == "package/package.json")
            {
                using var json = JsonDocument.Parse(memory.ToArray());
                Assert.Contains(
                    json.RootElement.GetProperty("license").GetString(),
                    (string?[])["MIT", "ISC", "Apache-2.0"]
                );
            }
            else if (
                entry.Name.EndsWith(".svg", StringComparison.Ordinal)
                && folders.Any(f => entry.Name.StartsWith($"package/{f}", StringComparison.Ordinal))
            )
            {
                all[entry.Name["package/".Length..]] = memory.ToArray();
            }
        }

        var names = all.Keys.ToArray();
        return
        [
            .. Enumerable
                .Range(0, count)
                .Select(i => names[(int)((long)i * names.Length / count)])
                .Select(n => (n, all[n])),
        ];
    }

    /// <summary>The package's archive, fetched once; the test is skipped, visibly, where it cannot be had.</summary>
    private static string Packed(string package)
    {
        var folder = Path.Combine(Place.Root, "artifacts", "corpora");
        var file = Path.Combine(folder, $"{package.TrimStart('@').Replace('/', '-').Replace('@', '-')}.tgz");
        if (!File.Exists(file))
        {
            Directory.CreateDirectory(folder);
            var start = new ProcessStartInfo(Place.Tool("npm"), ["pack", package, "--pack-destination", folder])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using var npm = Process.Start(start)!;
            var said = npm.StandardError.ReadToEndAsync();
            npm.StandardOutput.ReadToEnd();
            npm.WaitForExit();
            Assert.SkipUnless(File.Exists(file), $"npm could not fetch {package}: {said.Result.Split('\n')[0]}");
        }

        return file;
    }
}
