namespace Coldpeel.Storage.Orders;

/// <summary>What lists show of a job and find it by, so that they need not open its files.</summary>
/// <param name="Words">Names of its designs and files.</param>
/// <param name="SheetsJson">How many sheets of which size; null where it has none.</param>
/// <param name="Artwork">Its designs that are made of an artwork file.</param>
public sealed record StoredLook(
    IReadOnlyList<string> Words,
    string? SheetsJson,
    IReadOnlyList<StoredDesignOfFile> Artwork
);

/// <summary>A design of a job that is made of an artwork file.</summary>
/// <param name="Hash">SHA-256 of the file's content.</param>
/// <param name="File">The file's name.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Number">Which design of the job, from 1.</param>
/// <param name="Design">The design.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="Found">The worst that stands against it: 0 nothing, 1 a note, 2 a look, 3 a stop.</param>
/// <param name="Mends">How many mends are in it.</param>
/// <param name="Picture">The job's file that shows it.</param>
public sealed record StoredDesignOfFile(
    string Hash,
    string File,
    long Bytes,
    int Number,
    string Design,
    double WidthMm,
    double HeightMm,
    int Found,
    int Mends,
    string Picture
);

/// <summary>A kept job as whoever looks it over reads it.</summary>
/// <param name="Hashes">Its files: hash and length of their content by name.</param>
/// <param name="FindingsJson">Its findings.</param>
/// <param name="Read">Content by hash; null where it is not there, or not what was written.</param>
public sealed record StoredContent(
    IReadOnlyDictionary<string, (string Hash, long Bytes)> Hashes,
    string FindingsJson,
    Func<string, byte[]?> Read
);
