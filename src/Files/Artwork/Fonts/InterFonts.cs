using System.Collections.Frozen;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>The one family that is always there: Inter (OFL-1.1), unpacked from the package that carries it beside the program.</summary>
/// <remarks>The package is an assembly whose only resource is an index (path, offset, size) followed by the font files; none of its code is loaded.</remarks>
public static class InterFonts
{
    private const string Pack = "fonts/inter.fontpack";
    private const string Resource = "!AvaloniaResources";

    private static readonly Lazy<FrozenDictionary<string, byte[]>> Unpacked = new(Unpack);
    private static readonly Lazy<FrozenDictionary<string, SKTypeface>> Loaded = new(Load);

    /// <summary>Name of the family.</summary>
    public const string Family = "Inter";

    /// <summary>Weights there are, as font files: Bold, Light, Medium, Regular, SemiBold, Thin.</summary>
    public static IReadOnlyDictionary<string, byte[]> Files => Unpacked.Value;

    /// <summary>The face for text.</summary>
    public static SKTypeface Regular => Loaded.Value["Regular"];

    /// <summary>The face for figures and labels that must be read at a step's distance.</summary>
    public static SKTypeface Bold => Loaded.Value["Bold"];

    /// <summary>The face between the two.</summary>
    public static SKTypeface SemiBold => Loaded.Value["SemiBold"];

    private static FrozenDictionary<string, SKTypeface> Load() =>
        Unpacked.Value.ToFrozenDictionary(
            f => f.Key,
            f =>
                SKTypeface.FromData(SKData.CreateCopy(f.Value))
                ?? throw new InvalidDataException($"Inter {f.Key} cannot be read.")
        );

    private static FrozenDictionary<string, byte[]> Unpack()
    {
        using var pe = new PEReader(File.OpenRead(Path.Combine(AppContext.BaseDirectory, Pack)));
        var metadata = pe.GetMetadataReader();
        var resource = metadata
            .ManifestResources.Select(metadata.GetManifestResource)
            .First(r => metadata.StringComparer.Equals(r.Name, Resource));
        var directory = pe.PEHeaders.CorHeader!.ResourcesDirectory.RelativeVirtualAddress;
        var block = pe.GetSectionData(directory + (int)resource.Offset);
        var size = block.GetReader().ReadInt32();
        using var reader = new BinaryReader(new MemoryStream([.. block.GetContent(4, size)]));
        var indexLength = reader.ReadInt32();
        _ = reader.ReadInt32(); // version of the index
        var entries = new (string Path, int Offset, int Size)[reader.ReadInt32()];
        for (var i = 0; i < entries.Length; i++)
        {
            entries[i] = (reader.ReadString(), reader.ReadInt32(), reader.ReadInt32());
        }

        var start = 4 + indexLength;
        var fonts = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        foreach (var (path, offset, length) in entries.Where(e => e.Path.EndsWith(".ttf", StringComparison.Ordinal)))
        {
            reader.BaseStream.Position = start + offset;
            fonts[Path.GetFileNameWithoutExtension(path).Split('-')[^1]] = reader.ReadBytes(length);
        }

        return fonts.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
