using System.Security.Cryptography;

namespace Coldpeel.Storage.Content;

/// <summary>File content under its SHA-256 hash: equal content is kept once, and what is read is what was written.</summary>
/// <param name="root">The folder; content stands in a sub-folder named by the first two letters of its hash.</param>
internal sealed class ContentFolder(string root)
{
    /// <summary>Keeps the content and gives its hash; written beside first, then moved in place.</summary>
    public string Put(byte[] content)
    {
        var hash = HashOf(content);
        var path = PathOf(hash);
        if (File.Exists(path))
        {
            return hash;
        }

        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var beside = $"{path}.making-{Guid.NewGuid():n}";
        try
        {
            using (var file = new FileStream(beside, FileMode.CreateNew, FileAccess.Write))
            {
                file.Write(content);
                // On the disk before a row names it: a power cut may come at any moment.
                file.Flush(flushToDisk: true);
            }

            File.Move(beside, path, overwrite: true);
        }
        finally
        {
            File.Delete(beside);
        }

        return hash;
    }

    /// <summary>Whether it is there.</summary>
    public bool Has(string hash) => File.Exists(PathOf(hash));

    /// <summary>The content; null when it is not there.</summary>
    /// <exception cref="InvalidDataException">What is there is not what was written.</exception>
    public byte[]? Get(string hash)
    {
        var path = PathOf(hash);
        if (!File.Exists(path))
        {
            return null;
        }

        var content = File.ReadAllBytes(path);
        return HashOf(content) == hash
            ? content
            : throw new InvalidDataException($"{path} was changed after it was written; bring it back from a backup.");
    }

    /// <summary>All content: hash and where it stands.</summary>
    public IEnumerable<(string Hash, string Path)> All() =>
        !Directory.Exists(root)
            ? []
            : Directory
                .EnumerateFiles(root, "*", SearchOption.AllDirectories)
                .Select(path => (Hash: Path.GetFileName(path), path))
                .Where(f => f.Hash.Length == 64);

    /// <summary>Where content stands.</summary>
    public string PathOf(string hash) =>
        hash.Length == 64 && hash.All(char.IsAsciiHexDigitLower)
            ? Path.Combine(root, hash[..2], hash)
            : throw new ArgumentException($"\"{hash}\" is no hash.", nameof(hash));

    internal static string HashOf(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));
}
